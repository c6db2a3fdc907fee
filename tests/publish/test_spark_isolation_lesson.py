"""The lesson on isolating a spark fault: its numbers, figures, claims about checks, and the order of its sheet."""

import re
from collections import defaultdict

import pytest

from courseware.publish.blocks.caution import Caution
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.blocks.never_rules import NeverRules
from courseware.publish.blocks.procedure import JobSheet
from courseware.publish.blocks.readings_table import ReadingsTable
from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.lesson import Lesson
from tests.publish.conftest import Shipped
from tests.publish.lessons import blocks, prose_grade, shipped_lesson, written


@pytest.fixture(scope="module")
def lesson(shipped: Shipped) -> Lesson:
    return shipped_lesson("spark-isolation", shipped.teaching)


def test_it_comes_fourth_and_reads_at_grade_nine_or_below(lesson: Lesson) -> None:
    assert lesson.order == 4
    assert prose_grade(lesson) <= 9.0  # the bar is the course's own
    assert lesson.grade <= 9.0
    assert {"weak-when-hot", "the-check-that-halves-the-list", "the-isolation-step-by-step"} <= lesson.anchors


def test_its_numbers_worked_by_hand(lesson: Lesson) -> None:
    text = written(lesson)
    assert text["least-line"] == "108 V"  # 120 V less 10 %: 9,000 / 10,000 x 120 (trade magazines: more than 9,000 V)
    assert text["peak-rated"] == "14.1 kV"  # 10 kV x 1.4142
    # AIEE needle table: 10 kV at 0.85 cm, 15 kV at 1.30 cm; 3/8 in = 0.9525 cm, so 10 + 5 x 0.1025 / 0.45 = 11.14 kV
    assert text["wide-jump"] == "11.1 kV"
    assert text["gap-siphon"] == "0.16 in (4.0 mm)"  # 5/32 in = 3.97 mm
    assert text["gap-metered"] == "0.14 in (3.6 mm)"  # 3.556 mm
    assert text["tired-output"] == "9.2 kV"  # 10 kV x (1 - 0.25 x 0.3) = 9.25, shown to 0.1 kV
    assert text["sag-good"] == "9,333 V"  # 10,000 x 112 / 120
    assert text["sag-tired"] == "8.6 kV"  # 9.25 x 112 / 120 = 8.63
    assert text["shop-good"] == "9,750 V"  # 10,000 x 117 / 120
    assert text["shop-reading"] == text["shop-line"] == "117 V"
    assert text["cold-output"] == "9.5 kV"  # 9.75 x (1 - 0.1 x 0.3) = 9.46
    assert text["hot-output"] == "8.3 kV"  # 9.75 x (1 - 0.5 x 0.3) = 8.29
    assert (text["roof-output"], text["roof-gap"]) == ("10.0 kV", "0.14 in")
    # NIOSH: 35 ppm over 8 hours, 200 ppm ceiling, 1,200 ppm immediately dangerous
    assert [text[name] for name in ("co-stop", "co-ceiling", "co-deadly")] == ["35 ppm", "200 ppm", "1,200 ppm"]


def test_its_figures_show_what_their_words_say(lesson: Lesson) -> None:
    gap, weaker, tired = [block.figure.table.rows for block in blocks(lesson, FigureBlock)]
    heights = {row[0]: float(row[2].split()[0]) for row in gap}
    assert heights["wide gap"] < heights["most at the posts"] < heights["posts apart"]
    assert heights["most at the posts"] == 14.1
    late, weak, low = weaker
    oil, flame = (float(re.findall(r"[\d.]+", late[lane])[0]) for lane in (2, 5))
    assert 3 < flame - oil < 10  # seconds of oil before it lights: the bang
    assert weak[1:] == low[1:]  # alike, whatever is to blame
    assert "lockout" in weak[1]
    assert weak[3] != "never"  # there is a spark
    assert weak[4:] == ("never", "never")  # not a good one, and no flame
    volts = {row[0]: float(row[2].split()[0]) for row in tired}
    assert volts["compressor on"] < volts["least for a spark"] < volts["full line"]


# The seven suspects of the lesson, by the checks that see them: which of them does a reading of the model clear?
SEES = {
    "transformer-output": {"line-voltage-low", "ignition-wire-open", "transformer-open", "transformer-weak"},
    "primary-voltage": {"line-voltage-low", "ignition-wire-open"},
    "line-voltage": {"line-voltage-low"},
    "electrode-gap": {"electrode-gap-wide"},
    "porcelain": {"porcelain-cracked"},
    "post-contact": {"post-contact-lost"},
}


@pytest.mark.parametrize("place", [0, 1])
def test_the_tester_halves_the_list_and_one_more_reading_ends_the_search(
    shipped: Shipped, lesson: Lesson, place: int
) -> None:
    table = blocks(lesson, ReadingsTable)[place]
    trade = shipped.teaching.trade
    checks = {check: table.checks.index(trade.checks[check].title) for check in SEES}
    rows = {fault: row for row in table.rows for fault, mode in trade.faults.items() if mode.title == row.fault}
    assert len(rows) == 7
    for check, sees in SEES.items():
        assert {fault for fault, row in rows.items() if row.cells[checks[check]].differs} == sees
    # By gap, porcelain and output the list falls apart; where two are left, the primary tells them apart.
    groups = defaultdict(list)
    for row in rows.values():
        gap, porcelain, output = (
            row.cells[checks[name]] for name in ("electrode-gap", "porcelain", "transformer-output")
        )
        groups[gap.differs, porcelain.differs, output.differs, output.text.startswith("0.0")].append(row)
    assert sorted(map(len, groups.values())) == [1, 1, 1, 2, 2]
    for one, other in (group for group in groups.values() if len(group) > 1):
        assert {row.cells[checks["primary-voltage"]].differs for row in (one, other)} == {True, False}


def test_its_sheet_takes_the_parts_in_order_with_the_fuel_made_safe_as_each_unit_needs_it(
    shipped: Shipped, lesson: Lesson
) -> None:
    (sheet,) = blocks(lesson, JobSheet)
    actions = shipped.teaching.safework.actions
    number = {row.title: row.numbers for _, rows in sheet.parts for row in rows}
    delivery = [unit.features["delivery"] for unit in sheet.units]

    def at(action: str, unit: int) -> int:
        place = number[actions[action].title][unit]
        assert place is not None
        return place

    for unit, how in enumerate(delivery):
        safe = {"siphon": ["take-air-line-off", "bleed-air-line"], "metered": ["shut-oil-valve", "unplug-pump"]}
        other = {"siphon": "shut-oil-valve", "metered": "take-air-line-off"}
        parts = ["draw-electrode", "fit-spark-tester", "prove-no-oil", "read-spark-tester", "check-post-contact"]
        places = [at(action, unit) for action in parts]
        assert places == sorted(places)
        assert all(at("draw-electrode", unit) < at(action, unit) < at("prove-no-oil", unit) for action in safe[how])
        assert number[actions[other[how]].title][unit] is None
        assert at("take-spark-tester-off", unit) < at("fit-electrode", unit) < at("check-post-contact", unit)
        assert at("watch-full-start", unit) < at("hand-back", unit)
    assert not any("test lead" in title for title in number)  # no bridge on either unit, as the lesson says


def test_it_names_the_rules_that_matter_and_the_words_of_danger(lesson: Lesson) -> None:
    assert [block.word for block in blocks(lesson, Caution)] == ["NOTICE", "DANGER", "DANGER", "WARNING"]
    (rules,) = blocks(lesson, NeverRules)
    named = {rule.id for rule in rules.rules}
    assert {"tester-handled-live", "arc-drawn-at-posts", "meter-on-secondary", "oil-past-drawn-electrode"} <= named
    assert {"hands-in-live-unit", "not-proved-dead", "no-oil-not-proved", "co-not-read"} <= named


def test_it_shows_one_example_and_leaves_the_end_of_another(lesson: Lesson) -> None:
    full, faded = blocks(lesson, WorkedExample)
    assert (len(full.left), len(faded.left)) == (0, 3)
    last = lesson.pieces[-1]
    assert isinstance(last, SelfCheck)
    assert len({[option.right for option in question.options].index(True) for question in last.questions}) > 2
    assert lesson.sources
