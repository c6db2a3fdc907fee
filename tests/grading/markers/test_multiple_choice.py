"""Credit for every answer that applies: against a published forecast, and over all ways to answer."""

import itertools
from fractions import Fraction

import pytest

from courseware.grading.markers.base import Verdict
from courseware.grading.markers.multiple_choice import credit, mark
from courseware.grading.result import Broken
from courseware.quiz.form import Gate, Item, KeyEntry, Option

TAGS = "ABCDE"
LIVE = Gate(("D",), "Nothing is touched live.", "DANGER", "It can kill.")
METER = Gate(("B",), "The meter is proved again.", "WARNING", "A dead meter reads 0 V.")


def several(right: str, tags: str = TAGS, gates: tuple[Gate, ...] = ()) -> tuple[Item, KeyEntry]:
    options = tuple(Option(tag, f"Do {tag}") for tag in tags)
    feedback = {tag: f"About {tag}." for tag in tags}
    return (
        Item(1, "multiple-choice", "know-why", ("Which of these? Choose every one.",), None, options, "", 2),
        KeyEntry(1, "multiple-choice", "know-why", "why", 2, tuple(right), "They apply.", "l#s", feedback, gates=gates),
    )


def test_it_is_the_skill_score_of_a_published_forecast() -> None:
    """Finley's 2,803 tornado forecasts of 1884: 28 hits of 51 tornadoes, 72 false alarms on 2,752 other days.

    Peirce's skill score is 0.523 (printed in many texts on forecast verification; from memory).
    """
    assert float(credit(28, 51, 72, 2752)) == pytest.approx(0.523, abs=0.0005)


def test_all_of_it_is_all_points_and_nothing_else_is() -> None:
    item, entry = several("ACE")
    answers = [chosen for count in range(1, 6) for chosen in itertools.combinations(TAGS, count)]
    assert [chosen for chosen in answers if mark(item, entry, chosen).share == 1] == [("A", "C", "E")]
    assert all(mark(item, entry, chosen[::-1]).share == mark(item, entry, chosen).share for chosen in answers)


@pytest.mark.parametrize(("right", "tags"), [("ACE", "ABCDE"), ("AB", "ABCD"), ("ABCDE", "ABCDEF"), ("AB", "ABCDEF")])
def test_choosing_without_knowing_gains_nothing(right: str, tags: str) -> None:
    """Over all choices of k options, before it is cut off at nothing, the score is 0 on the average for every k."""
    wrong = len(tags) - len(right)
    for count in range(len(tags) + 1):
        chosen = list(itertools.combinations(tags, count))
        hits = [sum(tag in right for tag in one) for one in chosen]
        total = sum(Fraction(h, len(right)) - Fraction(count - h, wrong) for h in hits)
        assert total == 0
    item, entry = several(right, tags)
    assert mark(item, entry, tuple(tags)).share == 0


@pytest.mark.parametrize(
    ("given", "share"), [("AC", "2/3"), ("ACEB", "1/2"), ("AB", "0"), ("A", "1/3"), ("BD", "0"), ("ACB", "1/6")]
)
def test_a_part_of_it_is_a_part_of_the_points(given: str, share: str) -> None:
    item, entry = several("ACE")
    assert mark(item, entry, tuple(given)).share == Fraction(share)


def test_the_answer_is_told_in_the_order_of_the_form() -> None:
    item, entry = several("ACE")
    assert mark(item, entry, ("D", "C", "A")) == Verdict(
        Fraction(1, 6),
        ("Do A", "Do C", "Do D"),
        ("Do A", "Do C", "Do E"),
        ("“Do D” does not apply. About D.", "“Do E” applies too. About E."),
        shown=("D", "E"),
    )
    assert mark(item, entry, ()) == Verdict(Fraction(0), (), ("Do A", "Do C", "Do E"))
    assert mark(item, entry, ("A", "C", "E")).against == ()


def test_a_gate_is_broken_by_what_goes_wrong_where_it_stands_and_by_nothing_else() -> None:
    """An unsafe option chosen, or a needed one left out; a question left blank breaks nothing."""
    item, entry = several("AB", gates=(LIVE, METER))
    live, meter = (Broken(gate.rule, gate.signal_word, gate.reason) for gate in (LIVE, METER))
    for count in range(6):
        for chosen in itertools.combinations(TAGS, count):
            expected = None if not chosen else live if "D" in chosen else None if "B" in chosen else meter
            assert mark(item, entry, chosen).broken == expected
