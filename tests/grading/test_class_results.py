"""Counts over a class, held against a second path: plain loops over the answers, and another library's correlation."""

import dataclasses
import statistics

import numpy as np
import pytest

from courseware.grading.class_results import (
    Attempt,
    alpha_of_objectives,
    beliefs,
    broken_rules,
    by_objective,
    by_question,
    first_attempts,
)
from courseware.grading.item_statistics import FEWEST
from tests.grading.classroom import IDLE, SPARK, at_random, attempt, changed, choice, from_matrix
from tests.published.test_item_statistics import WUENSCH

CLASS = at_random(30)


def rows(one: Attempt) -> list[tuple[str, int, str]]:
    """Return (template, points that could be had, tag given or nothing) for each question."""
    assert one.answered
    return [(entry.template, entry.points, (one.answered.given[str(entry.number)] or ("",))[0])
            for entry in one.answered.key.entries]  # fmt: skip


def test_a_published_matrix_comes_out_through_the_whole_way() -> None:
    """K. Wuensch's ten people and ten questions: the p row as printed, corrected correlations recomputed from it."""
    found = {one.template: one for one in by_question(from_matrix(WUENSCH.tolist()))}
    in_order = [found[f"q{number}"] for number in range(1, 11)]
    assert [one.facility for one in in_order] == pytest.approx([0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6])
    r = [one.discrimination.r for one in in_order if one.discrimination]
    assert r == pytest.approx([0.7059, 0.7059, 0, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759], abs=5e-5)


@pytest.mark.parametrize("template", [f"t{place}" for place in range(9)])
def test_each_question_is_counted_as_plain_loops_count_it(template: str) -> None:
    question = next(one for one in by_question(CLASS) if one.template == template)
    holding = [one for one in CLASS if any(name == template for name, _, _ in rows(one))]
    own = [tag for one in holding for name, _, tag in rows(one) if name == template]
    assert (question.forms, question.answers) == (len(holding), len(own))
    assert (question.right, question.blank) == (own.count("9G4"), own.count(""))
    assert question.facility == pytest.approx(own.count("9G4") / len(own))
    times = {answer.wrong.name: answer.times for answer in question.wrong}
    expected = {f"{template} unsafe": own.count("B31"), f"{template} idle": own.count("1ZK")}
    assert times == {name: count for name, count in expected.items() if count}
    shares, rests = [], []
    for one in holding:
        mine = [(points, tag == "9G4") for name, points, tag in rows(one) if name == template]
        others = [(points, tag == "9G4") for name, points, tag in rows(one) if name != template]
        shares.append(sum(p for p, right in mine if right) / sum(p for p, _ in mine))
        rests.append(sum(p for p, right in others if right) / sum(p for p, _ in others))
    assert question.discrimination
    assert question.discrimination.r == pytest.approx(statistics.correlation(shares, rests))
    assert question.discrimination.count == len(holding)
    middle = statistics.median(rests)
    strong = [tag for one, rest in zip(holding, rests, strict=True) if rest >= middle
              for name, _, tag in rows(one) if name == template]  # fmt: skip
    assert (question.strong, question.strong_right) == (len(strong), strong.count("9G4"))
    by_strong = {answer.wrong.name: answer.strong for answer in question.wrong}
    assert by_strong.get(f"{template} idle", 0) == strong.count("1ZK")


def test_alpha_is_that_of_the_covariance_matrix() -> None:
    """Alpha the other way: k / (k - 1) (1 - trace / sum of all covariances)."""
    points = []
    for one in CLASS:
        assert one.answered
        kept = {"o0": 0.0, "o1": 0.0, "o2": 0.0}
        for entry in one.answered.key.entries:
            kept[entry.objective] += entry.points * (one.answered.given[str(entry.number)] == ("9G4",))
        points.append(list(kept.values()))
    together = np.cov(np.array(points).T)
    assert alpha_of_objectives(CLASS) == pytest.approx(3 / 2 * (1 - together.trace() / together.sum()))


def test_objectives_are_counted_from_what_stands_in_the_records() -> None:
    mean = statistics.mean(one.standing.objectives["o1"] for one in CLASS)
    before = next(one for one in by_objective(CLASS) if one.id == "o1")
    assert before.mean == pytest.approx(mean)
    assert before.under == sum(one.standing.objectives["o1"] < 80 for one in CLASS)
    marks = {**CLASS[0].standing.objectives, "o1": 100.0}
    after = next(one for one in by_objective((changed(CLASS[0], objectives=marks), *CLASS[1:])) if one.id == "o1")
    assert after.mean == pytest.approx(mean + (100 - CLASS[0].standing.objectives["o1"]) / 30)


def test_a_repeat_is_counted_nowhere_but_among_the_rules_broken() -> None:
    first = attempt("Ada", [choice(1, "a"), choice(2, "b")], {"1": ("1ZK",), "2": ()})
    again = attempt("Ada", [choice(1, "a"), choice(2, "b")], {"1": ("B31",), "2": ("9G4",)}, number=2)
    both = (first, again)
    assert first_attempts(both) == (first,)
    assert by_question(both) == by_question((first,))
    assert by_objective(both) == by_objective((first,))
    assert beliefs(both) == beliefs((first,))
    (broken,) = broken_rules(both)
    assert (broken.gate, broken.by) == (SPARK, (again,))


def test_a_misconception_is_counted_over_all_questions() -> None:
    two = attempt("Ada", [choice(1, "a"), choice(2, "b")], {"1": ("1ZK",), "2": ("1ZK",)})
    one = attempt("Bo", [choice(1, "c")], {"1": ("1ZK",)})
    (held,) = beliefs((two, one))
    assert (held.belief, held.answers, held.people) == (IDLE, 3, 2)


def test_answers_gone_from_the_archive_leave_scores_and_objectives() -> None:
    gone = dataclasses.replace(CLASS[0], answered=None)
    assert by_question((gone,)) == ()
    assert beliefs((gone,)) == ()
    assert {one.id for one in by_objective((gone,))} == {"o0", "o1", "o2"}
    assert sum(one.forms for one in by_question((gone, *CLASS[1:]))) < sum(one.forms for one in by_question(CLASS))


def test_a_rule_whose_key_is_gone_is_still_told() -> None:
    broken = dataclasses.replace(changed(CLASS[0], gates=("No reset again and again.",)), answered=None)
    (told,) = broken_rules((broken,))
    assert (told.gate.rule, told.gate.signal_word, told.by) == ("No reset again and again.", "WARNING", (broken,))


def test_few_forms_have_no_discrimination_and_no_alpha() -> None:
    few = CLASS[: FEWEST - 1]
    assert all(one.discrimination is None and one.few for one in by_question(few))
    assert alpha_of_objectives(few) is None
    assert alpha_of_objectives(CLASS) is not None


def test_no_alpha_where_objectives_weigh_differently() -> None:
    heavier = attempt("Z", [choice(1, "a", "o0", points=9), choice(2, "b", "o1"), choice(3, "c", "o2")],
                      {"1": ("9G4",), "2": ("9G4",), "3": ()})  # fmt: skip
    assert alpha_of_objectives((*CLASS, heavier)) is None


def test_a_form_of_one_question_has_no_rest_to_be_held_against() -> None:
    alone = [attempt(f"P{place}", [choice(1, "a")], {"1": ("9G4",) if place % 2 else ()}) for place in range(20)]
    (question,) = by_question(alone)
    assert (question.discrimination, question.strong) == (None, 0)
    assert question.facility == 0.5


def test_nobody_at_all_is_a_class_without_results() -> None:
    assert (by_question(()), by_objective(()), broken_rules(()), beliefs(())) == ((), (), (), ())
    assert alpha_of_objectives(()) is None
