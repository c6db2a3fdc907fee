import itertools

from hypothesis import given, strategies

from courseware.quiz.base32 import ALPHABET, checks, draw_words, new_form_id, read_as, times_x, with_check
from courseware.quiz.chance import open_chance


def test_times_x_runs_through_every_element_but_zero() -> None:
    """x generates the multiplicative group of GF(32), of order 31 (a prime): so x^5 + x^2 + 1 is irreducible."""
    powers = list(itertools.accumulate(range(31), lambda value, _: times_x(value), initial=1))
    assert len(set(powers[:31])) == 31
    assert powers[31] == 1


def test_there_are_1024_words_and_any_two_differ_in_two_places() -> None:
    words = ["".join(three) for three in itertools.product(ALPHABET, repeat=3) if checks("".join(three))]
    assert len(words) == 1024
    for gone in range(3):  # two words that differ in one place only would be equal without that place
        assert len({word[:gone] + word[gone + 1 :] for word in words}) == 1024


def test_two_swapped_characters_are_never_another_word() -> None:
    for payload in itertools.product(ALPHABET, repeat=2):
        word = with_check("".join(payload))
        for i, j in ((0, 1), (1, 2), (0, 2)):
            swapped = list(word)
            swapped[i], swapped[j] = swapped[j], swapped[i]
            assert word[i] == word[j] or not checks("".join(swapped))


@given(strategies.integers(0, 2**32), strategies.integers(1, 60))
def test_drawn_words_are_different_words(seed: int, count: int) -> None:
    words = draw_words(count, open_chance(str(seed)))
    assert len(set(words)) == count
    assert all(checks(word) for word in words)


def test_form_numbers_check_themselves() -> None:
    number = new_form_id(open_chance("seven"))
    assert len(number) == 9
    plain = number.replace("-", "")
    assert checks(plain)
    for place, character in itertools.product(range(8), ALPHABET):
        wrong = plain[:place] + character + plain[place + 1 :]
        assert checks(wrong) == (wrong == plain)


def test_letters_that_look_like_digits_are_read_as_digits() -> None:
    """Crockford's rule: i, l as 1 and o as 0, in either case."""
    assert read_as("oOiIlL u") == "001111 U"
