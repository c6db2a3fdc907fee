import dataclasses

from courseware.grading.class_findings import concerns, frequent_wrong_answers, under_the_cut
from courseware.grading.class_results import Attempt, ObjectiveResult, by_question
from courseware.grading.item_statistics import FEWEST
from tests.grading.classroom import attempt, choice


def answered(*tags: str) -> tuple[Attempt, ...]:
    """Return people of whom each answers two easy questions rightly and one as told."""
    parts = [choice(1, "easy"), choice(2, "plain"), choice(3, "odd")]
    return tuple(
        attempt(f"P{place}", parts, {"1": ("9G4",), "2": ("9G4",), "3": (tag,) if tag else ()})
        for place, tag in enumerate(tags)
    )


def test_objectives_under_the_cut_come_weakest_first() -> None:
    found = (ObjectiveResult("a", 79.9, 9, 5), ObjectiveResult("b", 80.0, 9, 4), ObjectiveResult("c", 20.0, 9, 9))
    assert [one.id for one in under_the_cut(found, 80.0)] == ["c", "a"]


def test_a_wrong_answer_is_worth_a_word_from_two_times_and_a_quarter() -> None:
    def worth(*tags: str) -> list[tuple[str, int]]:
        found = frequent_wrong_answers(by_question(answered(*tags)))
        return [(one.answer.wrong.name, one.answer.times) for one in found]

    assert worth("1ZK", "9G4") == []
    assert worth("1ZK", "1ZK", *["9G4"] * 6) == [("odd idle", 2)]
    assert worth("1ZK", "1ZK", *["9G4"] * 7) == []
    assert worth("1ZK", "1ZK", "B31", "B31", "B31", "9G4") == [("odd unsafe", 3), ("odd idle", 2)]


def test_nobody_right_and_a_wrong_answer_ahead_among_the_strong_are_said_with_their_hint() -> None:
    few = concerns(by_question(answered("1ZK", "1ZK", "B31")))
    assert [(one.question.template, one.reason, one.hint) for one in few] == [
        ("odd", "nobody-right", True), ("odd", "strong-wrong", True),
    ]  # fmt: skip
    assert few[1].answer
    assert few[1].answer.wrong.name == "odd idle"
    many = concerns(by_question(answered(*["1ZK"] * FEWEST)))
    assert [one.hint for one in many] == [False, False]


def test_two_answers_are_no_reason_for_anything() -> None:
    assert concerns(by_question(answered("1ZK", "1ZK"))) == ()


def test_a_right_answer_that_ties_with_a_wrong_one_is_no_concern() -> None:
    assert concerns(by_question(answered("1ZK", "1ZK", "9G4", "9G4"))) == ()


def test_a_negative_discrimination_is_a_hint_until_chance_is_ruled_out() -> None:
    def turned(people: int) -> tuple[Attempt, ...]:
        """Return people of whom those who know the rest miss one question, and the others have it right."""
        parts, right = [choice(1, "rest"), choice(2, "more"), choice(3, "odd")], ("9G4",)
        return tuple(
            attempt(
                f"P{place}",
                parts,
                {"1": right if place % 2 else (), "2": right if place % 3 else (), "3": () if place % 2 else right},
            )
            for place in range(people)
        )

    (found,) = [one for one in concerns(by_question(turned(40))) if one.question.template == "odd"]
    assert (found.reason, found.hint) == ("negative", False)
    (question,) = [one for one in by_question(turned(10)) if one.template == "odd"]
    assert question.discrimination
    weak = dataclasses.replace(question.discrimination, r=-0.1, low=-0.6, high=0.5)
    (hint,) = concerns([dataclasses.replace(question, discrimination=weak)])
    assert (hint.reason, hint.hint) == ("negative", True)
