import itertools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.records.codes import ALPHABET, certificate_code, normal_code
from courseware.records.errors import CodeError

CODE = certificate_code(11, "ab" * 32, "ignition-service")
SYMBOLS = CODE.replace("-", "")


def mistyped(symbols: str) -> bool:
    try:
        normal_code(symbols)
    except CodeError as error:
        return error.key == "code-mistyped"
    return False


def times(left: int, right: int) -> int:
    """Multiply in the field of 32 elements, schoolbook: the second way."""
    product = 0
    for shift in range(5):
        if right >> shift & 1:
            product ^= left << shift
    for shift in range(4, -1, -1):
        if product >> (5 + shift) & 1:
            product ^= 0b100101 << shift
    return product


def test_the_generator_runs_through_the_whole_field() -> None:
    power, seen = 1, set()
    for _ in range(31):
        seen.add(power)
        power = times(power, 2)
    assert seen == set(range(1, 32))


def test_every_code_is_zero_at_one_and_at_the_generator() -> None:
    for seq in range(500):
        values = [ALPHABET.index(symbol) for symbol in certificate_code(seq, "cd" * 32, "p").replace("-", "")]
        at_one = at_generator = 0
        for place, value in enumerate(reversed(values)):
            power = 1
            for _ in range(place):
                power = times(power, 2)
            at_one ^= value
            at_generator ^= times(value, power)
        assert (at_one, at_generator) == (0, 0)


def test_a_code_looks_as_printed_and_is_accepted() -> None:
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}", CODE)
    assert normal_code(CODE) == CODE


def test_case_spaces_hyphens_and_lookalikes_do_not_matter() -> None:
    assert normal_code(f"  {SYMBOLS.lower()[:5]} {SYMBOLS[5:]} ") == CODE
    with_digits = next(
        code for code in (certificate_code(n, "ab" * 32, "p") for n in range(999)) if "0" in code and "1" in code
    )
    assert normal_code(with_digits.replace("0", "o").replace("1", "l")) == with_digits
    assert normal_code(with_digits.replace("0", "O").replace("1", "I")) == with_digits


def test_every_wrong_symbol_is_found() -> None:
    for place, symbol in itertools.product(range(12), ALPHABET):
        if symbol != SYMBOLS[place]:
            assert mistyped(SYMBOLS[:place] + symbol + SYMBOLS[place + 1 :])


@given(st.permutations(range(12)), st.integers(1, 31), st.integers(1, 31))
def test_any_two_wrong_symbols_are_found(places: list[int], one: int, other: int) -> None:
    values = [ALPHABET.index(symbol) for symbol in SYMBOLS]
    values[places[0]] ^= one
    values[places[1]] ^= other
    assert mistyped("".join(ALPHABET[value] for value in values))


def test_every_swap_of_two_symbols_is_found() -> None:
    for one, other in itertools.combinations(range(12), 2):
        changed = list(SYMBOLS)
        changed[one], changed[other] = changed[other], changed[one]
        assert mistyped("".join(changed)) == (SYMBOLS[one] != SYMBOLS[other])


def test_codes_follow_from_the_event_and_differ() -> None:
    assert certificate_code(11, "ab" * 32, "ignition-service") == CODE
    codes = {
        certificate_code(seq, ref * 32, program)
        for seq, ref, program in itertools.product(range(200), ("ab", "ac"), ("p", "q"))
    }
    assert len(codes) == 800


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        (
            "K7QM-2XPA-9D4U",
            (
                "'K7QM-2XPA-9D4U' is no certificate code: no code has the character 'U'\n"
                "    try: look at that character again; codes have no I, L, O or U"
            ),
        ),
        (
            "K7QM-2XPA",
            (
                "'K7QM-2XPA' is no certificate code: it has 8 characters, a code has 12\n"
                "    try: type all three groups of four, such as K7QM-2XPA-9D4T"
            ),
        ),
        (
            "0000-0000-0001",
            (
                "'0000-0000-0001' is mistyped: its check characters do not fit\n"
                "    try: compare it with the certificate, character by character"
            ),
        ),
    ],
)
def test_what_is_no_code_is_told(typed: str, message: str) -> None:
    with pytest.raises(CodeError, match=f"^{re.escape(message)}$"):
        normal_code(typed)
