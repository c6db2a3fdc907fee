"""The lesson on lockout: its order is the rule's, it was carried out, and its figures and readings hold."""

from itertools import pairwise

import pytest

from courseware.publish.blocks.caution import Caution
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.blocks.never_rules import NeverRules
from courseware.publish.blocks.procedure import JobSheet
from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.lesson import Lesson
from tests.publish.conftest import Shipped
from tests.publish.lessons import blocks, prose_grade, shipped_lesson, written


@pytest.fixture(scope="module")
def lesson(shipped: Shipped) -> Lesson:
    return shipped_lesson("lockout", shipped.teaching)


def test_it_comes_second_and_reads_at_grade_nine_or_below(lesson: Lesson) -> None:
    assert lesson.order == 2
    assert prose_grade(lesson) <= 9.0  # the bar is the course's own
    assert lesson.grade <= 9.0
    assert {"the-six-steps", "prove-it-dead", "return-to-service", "on-the-customer-s-site"} <= lesson.anchors


def test_its_numbers_worked_by_hand(lesson: Lesson) -> None:
    text = written(lesson)
    assert text["shop-air"] == "110 psig (758 kPa)"  # 110 x 6.8948 kPa, NIST SP 811
    assert text["own-air"] == "20 psig (138 kPa)"  # 137.9
    assert text["hot-oil"] == "200 °F (93 °C)"  # (200 - 32) / 1.8 = 93.3
    assert text["cool"] == "110 °F (43 °C)"  # (110 - 32) / 1.8 = 43.3
    assert text["meter-rule"] == "600 V"  # 29 CFR 1910.333(b)(2)(iv)(B)
    assert text["source"] == "120 V"


# 29 CFR 1910.147(d)(1) to (6), then (e)(1) to (3), by the actions that do them.
RULE_ORDER = (
    "read-up", "shut-down-burner", "open-disconnect", "lock-out", "let-cool", "try-controls", "test-dead",
    "do-the-work", "close-cover", "clear-away", "take-lock-off", "warn-people", "close-disconnect",
)  # fmt: skip


def test_its_sheet_was_carried_out_in_the_order_of_the_rule_on_both_units(shipped: Shipped, lesson: Lesson) -> None:
    (sheet,) = blocks(lesson, JobSheet)
    assert {unit.id for unit in sheet.units} == {"bay-siphon", "bay-metered"}
    actions = shipped.teaching.safework.actions
    number = {row.title: row.numbers for _, rows in sheet.parts for row in rows}

    def at(action: str, unit: int) -> int:
        place = number[actions[action].title][unit]
        assert place is not None
        return place

    for unit in range(2):
        assert all(at(first, unit) < at(later, unit) for first, later in pairwise(RULE_ORDER))
        # The meter is proved right before and right after the dead test.
        assert at("prove-meter", unit) < at("test-dead", unit) == at("prove-meter-again", unit) - 1
        assert at("lock-out", unit) < at("drain-air", unit) < at("try-controls", unit)
    bled = number[actions["relieve-oil-pressure"].title]
    assert bled.count(None) == 1  # the metered unit only: its pump leaves pressure in the line


def test_its_figures_show_what_their_words_say(lesson: Lesson) -> None:
    tried, forgotten = [block.figure.table.rows for block in blocks(lesson, FigureBlock)]
    right, wrong = tried
    assert right[2:] == ("never",) * 4
    assert "never" not in wrong[2:]
    valve, air = forgotten
    assert (valve[4], valve[5]) == ("never", "never")  # no oil, no flame
    assert valve[3] != "never"
    assert valve[6] != "never"  # spark, and at the end the red light
    assert air[2] != "never"
    assert air[3:] == ("never",) * 4  # the blower runs, and nothing else ever comes


def test_it_names_the_rules_that_matter_and_the_words_of_danger(lesson: Lesson) -> None:
    (rules,) = blocks(lesson, NeverRules)
    named = {rule.id for rule in rules.rules}
    assert {"switched-off-not-locked", "not-proved-dead", "meter-not-proved", "removes-others-lock"} <= named
    assert {"stored-energy-left", "not-clear", "not-warned", "controls-not-tried"} <= named
    assert [block.word for block in blocks(lesson, Caution)] == ["DANGER", "WARNING", "WARNING"]


def test_it_shows_one_example_and_leaves_the_end_of_another(lesson: Lesson) -> None:
    full, faded = blocks(lesson, WorkedExample)
    assert (len(full.left), len(faded.left)) == (0, 3)
    last = lesson.pieces[-1]
    assert isinstance(last, SelfCheck)
    assert len({[option.right for option in question.options].index(True) for question in last.questions}) > 1
    assert lesson.sources
