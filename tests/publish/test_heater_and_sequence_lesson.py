"""The lesson on the heater and its sequence: its numbers, its figures and what it says of complaints are right."""

import re

import pytest

from courseware.heater.readings import complaint_of
from courseware.heater.simulate import simulate
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.blocks.readings_table import ReadingsTable
from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.lesson import Lesson
from tests.publish.conftest import Shipped
from tests.publish.lessons import blocks, prose_grade, shipped_lesson, written


@pytest.fixture(scope="module")
def lesson(shipped: Shipped) -> Lesson:
    return shipped_lesson("heater-and-sequence", shipped.teaching)


def test_it_opens_the_course_and_reads_at_grade_nine_or_below(lesson: Lesson) -> None:
    assert lesson.order == 1
    assert prose_grade(lesson) <= 9.0  # the bar is the course's own
    assert lesson.grade <= 9.0
    assert {"the-chain", "two-units", "the-sequence-of-operation", "what-the-complaint-tells"} <= lesson.anchors


def test_its_numbers_worked_by_hand(lesson: Lesson) -> None:
    text = written(lesson)
    # 40 CFR 98, Table C-1: used oil 0.138 million Btu/gal. 1.7 gal/h x 138,000 = 234,600 Btu/h.
    assert text["heat-siphon"] == "138,000 Btu/h (40 kW)"  # x 0.29307 W (NIST SP 811) = 40.4 kW
    assert text["heat-metered"] == "234,600 Btu/h (69 kW)"  # 68.8 kW
    assert text["flow-siphon"] == "1.0 gph (3.8 L/h)"  # 3.785 L/gal, NIST SP 811
    assert text["air-metered"] == "12 psig (83 kPa)"  # x 6.8948 kPa = 82.7, NIST SP 811
    assert text["shop-air"] == "110 psig (758 kPa)"  # 758.4
    # The sooted eye stands above what the control needs, the clean one below it (the example rests on this).
    kilohms = {name: float(text[name].split()[0]) for name in ("clean-eye", "flame-ohms", "sooted-eye")}
    assert kilohms["clean-eye"] < kilohms["flame-ohms"] < kilohms["sooted-eye"]
    # And the air before the regulator is as it should be, the air behind it below what the switch needs.
    assert text["low-supply"] == text["sound-supply"] == "20 psig"
    assert float(text["low-air"].split()[0]) < float(text["switch-closes"].split()[0])


def test_its_figures_show_what_their_words_say(lesson: Lesson) -> None:
    _, start, broken = [block.figure.table.rows for block in blocks(lesson, FigureBlock)]
    siphon, metered = start
    spans = {row[0]: [float(one) for one in re.findall(r"[\d.]+", row[4])] for row in start}
    assert spans["Siphon unit"][1] >= 39.5  # intermittent: the spark stays to the end of the chart
    assert spans["Metered unit"][1] - spans["Metered unit"][0] < 2  # interrupted: gone when flame is seen
    assert "prepurge" not in siphon[1]
    assert "prepurge" in metered[1]
    assert siphon[7] == metered[7] == "never"  # no red light
    blind, waiting = broken
    assert "never" not in blind[2:]  # flame, and the red light all the same
    first, last = (float(one) for one in re.findall(r"[\d.]+", blind[5]))
    assert 40 < last - first <= 45  # it burns for about the whole trial of 45 s
    assert waiting[2] != "never"
    assert waiting[3:] == ("never",) * 4


# What the lesson says of each complaint: unit, fault, the complaint that the model tells.
TOLD = [
    ("bay-siphon", "no-supply", "nothing-happens"),
    ("bay-siphon", "thermostat-open", "nothing-happens"),
    ("bay-metered", "regulator-low", "fan-runs-no-flame"),
    ("bay-metered", "compressor-failed", "fan-runs-no-flame"),
    ("bay-siphon", "regulator-low", "no-flame-red-light"),  # no air switch to wait for
    ("bay-siphon", "burner-motor-failed", "no-flame-red-light"),
    ("bay-metered", "tank-empty", "no-flame-red-light"),
    ("bay-siphon", "sensor-sooted", "lights-then-quits"),
    ("bay-metered", "sensor-open", "lights-then-quits"),
    ("bay-metered", "oil-solenoid-leaking", "bangs-on-start"),
    ("bay-siphon", "oil-solenoid-leaking", "yearly-service"),  # hidden while the air is off
]


@pytest.mark.parametrize(("unit", "fault", "complaint"), TOLD)
def test_the_complaint_tells_what_the_lesson_says(shipped: Shipped, unit: str, fault: str, complaint: str) -> None:
    trade = shipped.teaching.trade
    mode = trade.faults[fault]
    run = simulate(trade.units[unit], [((mode, max(mode.severities)),)])
    assert complaint_of(trade.units[unit], trade.complaints, run) == (complaint,)


def test_its_table_shows_that_a_complaint_only_narrows_the_search(lesson: Lesson) -> None:
    (table,) = blocks(lesson, ReadingsTable)
    heard = {row.fault: tuple(cell.text for cell in row.cells[:3]) for row in table.rows}
    titles = [row.fault for row in table.rows]
    assert heard[titles[3]] == heard[titles[4]]  # an open transformer and an empty tank
    assert len(set(heard.values())) >= 4


def test_it_shows_one_example_and_leaves_the_end_of_another(lesson: Lesson) -> None:
    full, faded = blocks(lesson, WorkedExample)
    assert (len(full.left), len(faded.left)) == (0, 3)
    last = lesson.pieces[-1]
    assert isinstance(last, SelfCheck)
    assert len({[option.right for option in question.options].index(True) for question in last.questions}) > 1
    assert lesson.sources
