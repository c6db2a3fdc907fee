import hashlib
import hmac
import random

import pytest

from courseware.content.refusal import Refusal
from courseware.quiz.chance import KeyedRandom, chance, open_chance

SECRET = bytes(range(32))


def test_the_stream_is_hmac_of_a_counter() -> None:
    """Recomputed with hashlib and hmac.new, block by block."""
    key = hmac.new(SECRET, b"\x00\x00\x00\x04form\x00\x00\x00\x05IGN-1", hashlib.sha256).digest()
    blocks = [hmac.new(key, n.to_bytes(8, "big"), hashlib.sha256).digest() for n in (1, 2, 3)]
    rng = chance(SECRET, "form", "IGN-1")
    assert rng.getrandbits(256) == int.from_bytes(blocks[0], "big")
    assert rng.getrandbits(300) == int.from_bytes(blocks[1] + blocks[2], "big") >> 212


def test_same_names_same_draws_and_other_names_other_draws() -> None:
    assert chance(SECRET, "a", "b").random() == chance(SECRET, "a", "b").random()
    others = [("ab",), ("a", "b", ""), ("b", "a"), ("", "ab"), ("a", "c")]
    assert len({chance(SECRET, *names).random() for names in [("a", "b"), *others]}) == 6
    assert chance(SECRET, "a").random() != chance(SECRET[::-1], "a").random()
    assert chance(SECRET, "a").random() != open_chance("a").random()


def test_python_uses_the_stream_for_all_its_draws() -> None:
    """A draw that fell back to the built-in generator, seeded with a constant, would not depend on the key."""
    draws = [
        (rng.random(), rng.randrange(1000), rng.sample(range(50), 5), rng.choices("abc", k=9), rng.gauss(0, 1))
        for rng in (KeyedRandom(b"one"), KeyedRandom(b"two"))
    ]
    assert all(first != second for first, second in zip(*draws, strict=True))


def test_draws_are_even() -> None:
    """Chi-square over 16 cells: 37.7 is the 0.1 % point for 15 degrees of freedom (handbook table, from memory)."""
    rng = KeyedRandom(b"even")
    counts = [0] * 16
    for _ in range(8000):
        counts[rng.randrange(16)] += 1
    assert sum((count - 500) ** 2 / 500 for count in counts) < 37.7


def test_a_short_secret_is_refused() -> None:
    with pytest.raises(Refusal) as refusal:
        chance(b"acme", "form")
    assert str(refusal.value) == (
        "the company's secret has 4 bytes; it needs at least 32; "
        "try: use the secret that the program made when the company was set up; never type one"
    )


def test_it_is_a_random_generator_like_any_other() -> None:
    assert isinstance(chance(SECRET, "a"), random.Random)
