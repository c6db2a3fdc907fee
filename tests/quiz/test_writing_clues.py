"""Clues of rule 28: each is told where it gives the key away, and not where it does not."""

import pytest

from courseware.quiz.writing_clues import clues


@pytest.mark.parametrize(
    ("right", "wrong", "stem", "found"),
    [
        ("Lock it", ("Tag it", "Try it"), ("What next?",), []),
        (
            "Lock it",
            ("It is always off", "Try it"),
            ("What next?",),
            ["rule 28: a wrong option says 'always' and the right one does not, which gives it away"],
        ),
        (
            "It is never off",
            ("Tag it", "Try it"),
            ("What next?",),
            ["rule 28: the right option alone says 'never', which gives it away"],
        ),
        ("It is never off", ("It is always off", "Try it"), ("What next?",), []),
        (
            "Electrode",
            ("Switch", "Sensor"),
            ("The part is an",),
            ["rule 28: the stem ends with 'an', which fits some options and not others"],
        ),
        (
            "Look at the sensors",
            ("Look at the tank", "Look at the line"),
            ("The sensor reads high.", "Where do you look?"),
            ["rule 28: the word 'sensor' of the stem comes back in the right option alone, which gives it away"],
        ),
        # A wrong option that echoes the stem as well takes the clue away.
        (
            "Look at the sensor",
            ("Look at the strainer", "Look at the line"),
            ("The sensor and the strainer are new.", "Where do you look?"),
            [],
        ),
        ("About the heater", ("Tag it", "Try it"), ("What about the heater?",), []),
    ],
)
def test_clues(right: str, wrong: tuple[str, ...], stem: tuple[str, ...], found: list[str]) -> None:
    assert list(clues(right, wrong, stem)) == found
