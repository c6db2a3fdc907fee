"""Crockford's base 32, and words of three characters in it that check themselves.

The alphabet has no I, L, O and U; on reading, I and L count as 1 and O as 0, small letters as capitals
(Douglas Crockford, "Base 32"). A word is a codeword of a parity check over GF(32): with the characters' values
as field elements, ``c1 + x c2 + x^2 c3 = 0``. One wrong character, or two swapped ones, always break the sum,
since 1, x and x^2 are distinct and not zero; so any two words differ in at least two places.
"""

import random
from typing import Final

ALPHABET: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_MODULUS: Final = 0b100101  # x^5 + x^2 + 1, irreducible over GF(2)
_READ_AS: Final = str.maketrans("ILO", "110")


def read_as(text: str) -> str:
    """Return typed text in the alphabet's spelling.

    Examples
    --------
    >>> read_as(" 7k-oil ")
    '7K-011'
    """
    return text.strip().upper().translate(_READ_AS)


def times_x(value: int) -> int:
    """Return ``x * value`` in GF(32), for a value from 0 to 31 [-]."""
    doubled = value << 1
    return doubled ^ _MODULUS if doubled & 32 else doubled


def parity(word: str) -> int:
    """Return the parity sum of a word over the alphabet [-]; 0 if it checks.

    Horner's rule from the last character: ``c1 + x (c2 + x (c3 + ...))``.
    """
    total = 0
    for character in reversed(word):
        total = times_x(total) ^ ALPHABET.index(character)
    return total


def checks(word: str) -> bool:
    """Say whether all characters are of the alphabet and their parity sum is zero.

    Examples
    --------
    >>> checks("000"), checks("001"), checks("I00")
    (True, False, False)
    """
    return bool(word) and all(character in ALPHABET for character in word) and parity(word) == 0


def with_check(payload: str) -> str:
    """Return the word whose last characters are ``payload`` and whose first makes it check.

    Examples
    --------
    >>> checks(with_check("7K"))
    True
    """
    return ALPHABET[parity("0" + payload)] + payload


def draw_words(count: int, rng: random.Random) -> tuple[str, ...]:
    """Return ``count`` different words of three characters, drawn without replacement from all 1,024."""
    payloads = rng.sample(range(1024), count)
    return tuple(with_check(ALPHABET[payload >> 5] + ALPHABET[payload & 31]) for payload in payloads)


def new_form_id(rng: random.Random) -> str:
    """Return a new form number of eight characters that checks itself: ``7K3Q-9XA2``."""
    word = with_check("".join(rng.choices(ALPHABET, k=7)))
    return f"{word[:4]}-{word[4:]}"
