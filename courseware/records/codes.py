"""The code on a certificate, such as ``K7QM-2XPA-9D4T``: read aloud, typed, and checked before it is looked up.

Twelve symbols of Crockford's base 32 (no I, L, O, U), the last two of them checks. The checks are those
of a Reed-Solomon code over the field of 32 elements: with two of them, any one or two wrong symbols
are found, a swapped pair among them, wherever they stand.
"""

import hashlib
from typing import Final

from courseware.records.errors import CodeError

ALPHABET: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
SYMBOLS: Final = 12
_LOOKALIKES: Final = str.maketrans({"O": "0", "I": "1", "L": "1", "-": None, " ": None})
_FIELD: Final = 0b100101  # x^5 + x^2 + 1, primitive: its root generates all 31 nonzero elements


def certificate_code(seq: int, ref: str, program: str) -> str:
    """Return the code of a certificate.

    It follows from the event, so that nobody chooses it; and from the salted reference, which is no
    more guessable than the salt, so that nobody can count codes up.

    Parameters
    ----------
    seq : int
        Number [-] of the event that grants it.
    ref : str
        The person's salted reference.
    program : str
        Id of the program.
    """
    digest = hashlib.sha256(f"courseware/certificate/1|{seq}|{ref}|{program}".encode()).digest()
    bits = int.from_bytes(digest[:8], "big") >> 14
    data = [(bits >> shift) & 31 for shift in range(45, -1, -5)]
    return _show(data + _checks(data))


def normal_code(typed: str) -> str:
    """Return a typed code in its printed form: upper case, in fours, with the look-alikes O, I and L read as 0, 1, 1.

    Raises
    ------
    CodeError
        If it has a wrong number of symbols, a letter that no code has, or checks that do not hold.

    Examples
    --------
    >>> normal_code(" 0000 oooo-0000")
    '0000-0000-0000'
    """
    text = typed.upper().translate(_LOOKALIKES)
    for symbol in text:
        if symbol not in ALPHABET:
            raise CodeError("code-symbol", code=typed, symbol=symbol)
    if len(text) != SYMBOLS:
        raise CodeError("code-length", code=typed, found=len(text), allowed=SYMBOLS)
    values = [ALPHABET.index(symbol) for symbol in text]
    if _checks(values[:-2]) != values[-2:]:
        raise CodeError("code-mistyped", code=typed)
    return _show(values)


def _show(values: list[int]) -> str:
    text = "".join(ALPHABET[value] for value in values)
    return "-".join(text[start : start + 4] for start in range(0, SYMBOLS, 4))


def _checks(data: list[int]) -> list[int]:
    """Return the two symbols that make the word, read as a polynomial, zero at 1 and at the field's generator."""
    total = at_generator = 0
    for value in data:
        total ^= value
        at_generator = _times_generator(at_generator) ^ value
    at_generator = _times_generator(_times_generator(at_generator))  # the checks stand two places lower
    # With checks a, b: total + a + b = 0 and at_generator + g a + b = 0, so (1 + g) a = total + at_generator.
    first = next(a for a in range(32) if _times_generator(a) ^ a == total ^ at_generator)
    return [first, total ^ first]


def _times_generator(value: int) -> int:
    doubled = value << 1
    return doubled ^ _FIELD if doubled & 32 else doubled
