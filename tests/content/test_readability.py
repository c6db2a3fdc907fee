"""The reading grade, held to the two published examples, and syllables to the dictionary's."""

import pytest

from courseware.content.readability import Reading, count, syllables

PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def test_the_cat_on_the_mat() -> None:
    # Published grade of this sentence: -1.45 (Flesch-Kincaid, quoted with the formula in many places).
    found = count("The cat sat on the mat.")
    assert found == Reading(sentences=1, words=6, syllables=6)
    assert round(found.grade, 2) == -1.45


def test_the_platypus() -> None:
    # Published: 13 words, 24 syllables, grade 11.3; 11.26 by the formula.
    found = count(PLATYPUS)
    assert found == Reading(sentences=1, words=13, syllables=24)
    assert round(found.grade, 2) == 11.26


def test_a_hundred_words_in_five_sentences() -> None:
    # 100 words, 5 sentences, 150 syllables: 9.91, by the formula worked by hand (7.8 + 17.7 - 15.59).
    assert round(Reading(5, 100, 150).grade, 2) == 9.91


def test_short_sentences_count() -> None:
    # Counted by hand; programs that drop sentences of one or two words see three here.
    assert count("Shut off the fuel valve. Lock it out. Tag it. Try the start switch.").sentences == 4


def test_a_line_break_ends_a_sentence_and_signs_are_no_words() -> None:
    assert count("Before you look\n\nShut the valve.\n120 V\n(a) 10").sentences == 4
    with pytest.raises(ValueError, match="there is no word to count"):
        count("120 ≥ 10.")


@pytest.mark.parametrize(
    ("word", "expected"),
    # Syllables as American dictionaries divide the words (from memory).
    [
        ("spark", 1), ("valve", 1), ("flame", 1), ("watched", 1), ("closed", 1), ("once", 1), ("does", 1), ("used", 1),
        ("nozzle", 2), ("metered", 2), ("siphon", 2), ("pressure", 2), ("handles", 2), ("fuel", 2), ("trial", 2),
        ("started", 2), ("inches", 2), ("gases", 2), ("equal", 2), ("people", 2), ("something", 2), ("being", 2),
        ("electrode", 3), ("ignition", 3), ("transformer", 3), ("technician", 3), ("manual", 3), ("idea", 3),
        ("dangerous", 3), ("quality", 3), ("simulated", 4), ("regulator", 4), ("interrupted", 4), ("intermittent", 4),
        ("reliable", 4), ("electricity", 5), ("technician's", 3), ("a", 1), ("the", 1),
    ],
)  # fmt: skip
def test_syllables(word: str, expected: int) -> None:
    assert syllables(word) == expected
