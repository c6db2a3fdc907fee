"""Chance from the company's secret: the same names always give the same draws, and nobody else can make them.

The generator is not the Mersenne Twister: a form shows its tags and the order of its options, and from enough
output of that generator the rest of its draws can be computed. Here every block is an HMAC-SHA256 (RFC 2104) of a
counter, under a key that is itself an HMAC of the names under the secret.
"""

import hashlib
import hmac
import random
from typing import Final

from courseware.content.refusal import Refusal
from courseware.content.words import say

SHORTEST_SECRET: Final = 32
_BLOCK: Final = 32


class KeyedRandom(random.Random):
    """A generator whose bits are HMAC-SHA256 of a counter.

    Parameters
    ----------
    key : bytes
        Whoever has it can repeat every draw.
    """

    def __init__(self, key: bytes) -> None:
        self._key = key
        self._counter = 0
        super().__init__(0)

    def getrandbits(self, k: int) -> int:
        """Return ``k`` random bits [-] as a whole number."""
        blocks = -(-k // (8 * _BLOCK))
        stream = b"".join(self._block() for _ in range(blocks))
        return int.from_bytes(stream, "big") >> (8 * _BLOCK * blocks - k)

    def random(self) -> float:
        """Return a number in [0, 1) [-], of 53 random bits."""
        return self.getrandbits(53) * 2.0**-53

    def _block(self) -> bytes:
        self._counter += 1
        return hmac.digest(self._key, self._counter.to_bytes(8, "big"), "sha256")


def chance(secret: bytes, *names: str) -> KeyedRandom:
    """Return the generator that belongs to these names under this secret.

    Parameters
    ----------
    secret : bytes
        The company's secret, at least 32 bytes.
    names : str
        What is drawn; each counts with its length, so that no two lists of names give the same draws.

    Raises
    ------
    Refusal
        If the secret is too short to be one.
    """
    if len(secret) < SHORTEST_SECRET:
        raise Refusal(say("quiz.short-secret", size=len(secret), least=SHORTEST_SECRET), say("quiz.short-secret-try"))
    return KeyedRandom(hmac.digest(secret, _joined(names), "sha256"))


def open_chance(*names: str) -> KeyedRandom:
    """Return the generator that belongs to these names and that anybody can make: for practice only."""
    return KeyedRandom(hashlib.sha256(_joined(names)).digest())


def _joined(names: tuple[str, ...]) -> bytes:
    parts = [name.encode("utf-8") for name in names]
    return b"".join(len(part).to_bytes(4, "big") + part for part in parts)
