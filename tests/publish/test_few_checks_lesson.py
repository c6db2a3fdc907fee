"""The lesson on finding faults with few checks: its calls, shares, minutes and charts say what the model says."""

import pytest

from courseware.publish.blocks.caution import Caution
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.blocks.never_rules import NeverRules
from courseware.publish.blocks.readings_table import ReadingsTable
from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.blocks.what_is_left import WhatIsLeft
from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.lesson import Lesson
from tests.publish.conftest import Shipped
from tests.publish.lessons import blocks, prose_grade, shipped_lesson, written
from tests.quiz.kinds.enumeration import Counted, count_out

STRAINER = {"blower-turns": "turns", "oil-valve": "along", "suction-vacuum": "high"}
GAP = {
    "blower-turns": "turns",
    "atomizing-pressure": "right",
    "oil-valve": "along",
    "siphon-vacuum": "right",
    "spark-at-electrode": "weak",
    "line-voltage": "right",
    "post-contact": "touch",
    "electrode-gap": "wide",
}
NO_FLAME = "no-flame-red-light"


@pytest.fixture(scope="module")
def lesson(shipped: Shipped) -> Lesson:
    return shipped_lesson("few-checks", shipped.teaching)


@pytest.fixture(scope="module")
def counted(shipped: Shipped) -> dict[str, Counted]:
    """Return every single fault of each unit, run and counted by the second path."""
    trade = shipped.teaching.trade
    return {name: count_out(unit, trade) for name, unit in trade.units.items()}


def test_it_comes_last_and_reads_at_grade_nine_or_below(lesson: Lesson) -> None:
    assert lesson.order == 6
    assert prose_grade(lesson) <= 9.0  # the bar is the course's own
    assert lesson.grade <= 9.0
    assert {"write-the-list", "split-the-list", "the-order-that-is-safe", "when-you-cannot-say"} <= lesson.anchors


def test_its_minutes_are_those_of_the_checks_and_repairs(shipped: Shipped, lesson: Lesson) -> None:
    trade, text = shipped.teaching.trade, written(lesson)
    assert text["guess-minutes"] == f"{trade.repairs['replace-transformer'].minutes:g} min"
    assert text["few-minutes"] == f"{sum(trade.checks[one].minutes for one in STRAINER):g} min"
    assert text["siphon-minutes"] == f"{sum(trade.checks[one].minutes for one in GAP):g} min"
    usable = [one for one in trade.checks.values() if one.applies_to(trade.units["bay-metered"])]
    assert text["all-checks"] == str(len(usable))
    assert text["all-minutes"] == f"{sum(one.minutes for one in usable):g} min"
    assert text["output-error"] == f"{trade.checks['transformer-output'].error:g} kV"


def test_counting_every_case_out_gives_its_lists_and_shares(lesson: Lesson, counted: dict[str, Counted]) -> None:
    text = written(lesson)

    def left(unit: str, evidence: dict[str, str], made: int) -> str:
        some = {check: evidence[check] for check in list(evidence)[:made]}
        shares = counted[unit].shares(counted[unit].after(NO_FLAME, some))
        return str(sum(share > 0.02 for share in shares.values()))

    names = ("first-list", "after-blower", "after-valve")
    assert [text[name] for name in names] == [left("bay-metered", STRAINER, made) for made in range(3)]
    names = ("siphon-spark", "siphon-line", "siphon-contact")
    assert [text[name] for name in names] == [left("bay-siphon", GAP, made) for made in (5, 6, 7)]
    first = counted["bay-metered"].shares(counted["bay-metered"].after(NO_FLAME, {}))
    assert text["guess"] == f"{100 * first['replace-transformer']:.0f} of 100"
    assert max(first, key=lambda one: first[one]) == "replace-transformer"  # "most often"


def test_each_check_of_its_call_is_the_best_at_its_place(lesson: Lesson, counted: dict[str, Counted]) -> None:
    made: dict[str, str] = {}
    for check, outcome in STRAINER.items():
        rates = counted["bay-metered"].rates(NO_FLAME, made)
        assert rates[check] == pytest.approx(max(rates.values()))
        made[check] = outcome
    shares = counted["bay-metered"].shares(counted["bay-metered"].after(NO_FLAME, made))
    assert shares["clean-strainer"] > 0.95
    sheet, unsettled = blocks(lesson, WhatIsLeft)
    assert sheet.columns[-1].following == "None: it is settled"
    assert unsettled.columns[-1].following == "None that tells more"


def test_the_call_that_stays_open_does(counted: dict[str, Counted]) -> None:
    good = {"electrode-gap": "right", "oil-before-trial": "none", "porcelain": "sound", "transformer-output": "good"}
    bench = counted["bay-metered"]
    shares = bench.shares(bench.after("bangs-on-start", good))
    assert 0.5 < max(shares.values()) < 0.95  # "right more often than not", and not settled
    rates = bench.rates("bangs-on-start", good)
    assert max(rate * bench.trade.checks[check].minutes for check, rate in rates.items()) < 0.1


def test_its_readings_stand_where_its_words_put_them(lesson: Lesson) -> None:
    text = written(lesson)
    number = {name: float(words.split()[0]) for name, words in text.items() if words[0].isdigit() and "/" not in words}
    assert number["vacuum-sound"] < number["vacuum-high"] < number["vacuum-plugged"]
    assert number["gap-found"] > number["gap-high"]
    assert number["output-least"] < number["output-low"] < number["output-sound"]
    assert number["output-edge"] == number["output-least"]
    # 10 inHg x 3.386 kPa = 33.9 kPa; 0.17 in x 25.4 mm = 4.3 mm, NIST SP 811
    assert (text["vacuum-high"], text["gap-high"]) == ("10 inHg (34 kPa)", "0.17 in (4.3 mm)")


def test_its_figures_show_what_their_words_say(shipped: Shipped, lesson: Lesson) -> None:
    doubt, shift = [block.figure.table for block in blocks(lesson, FigureBlock)]
    checks = shipped.teaching.trade.checks
    told = {row[0].rpartition(" (")[0]: int(row[1].split()[0]) for row in doubt.rows}
    short = [checks[one].title for one in ("blower-turns", "oil-valve")]
    assert [row[0].rpartition(" (")[0] for row in doubt.rows[:2]] == short
    assert all(told[title] <= 12 for title in short)
    thirds = [told[checks[one].title] for one in ("suction-vacuum", "spark-at-electrode")]
    assert all(28 <= share <= 38 for share in thirds)  # "about a third"
    assert checks["suction-vacuum"].minutes < checks["spark-at-electrode"].minutes
    assert [row[1] for row in doubt.rows[-2:]] == ["0 %", "0 %"]
    repairs = {row[0]: row[1:] for row in shift.rows}
    title = {name: one.title for name, one in shipped.teaching.trade.repairs.items()}
    gap, transformer = repairs[title["set-electrode-gap"]], repairs[title["replace-transformer"]]
    assert int(transformer[0]) == max(int(row[1]) for row in shift.rows[:-1])  # the likeliest repair at the start
    assert gap[-2] == transformer[-2]  # side by side until the gap is gauged
    assert int(gap[-1]) >= 95


def test_its_table_splits_the_list_as_its_words_say(shipped: Shipped, lesson: Lesson) -> None:
    (table,) = blocks(lesson, ReadingsTable)
    trade = shipped.teaching.trade
    faults = {row.fault: dict(zip(table.checks, row.cells, strict=True)) for row in table.rows}
    vacuum, spark = trade.checks["suction-vacuum"].title, trade.checks["spark-at-electrode"].title

    def inches(fault: str) -> float:
        return float(faults[trade.faults[fault].title][vacuum].text.split()[0])

    assert min(inches("strainer-plugged"), inches("oil-valve-shut")) > 10  # high
    assert max(inches("tank-empty"), inches("oil-pump-failed"), inches("suction-leak")) < 1  # none
    assert not faults[trade.faults["transformer-open"].title][vacuum].differs
    for fault in ("tank-empty", "strainer-plugged", "oil-solenoid-open", "flue-blocked"):
        assert faults[trade.faults[fault].title][spark].text == "Steady blue spark across the tines"


def test_it_warns_shows_and_asks_in_that_order(lesson: Lesson) -> None:
    assert [block.word for block in blocks(lesson, Caution)] == ["DANGER", "WARNING", "WARNING"]
    (rules,) = blocks(lesson, NeverRules)
    named = {rule.id for rule in rules.rules}
    assert {"meter-on-secondary", "reset-without-looking", "oil-in-spark-test", "ohms-on-live-circuit"} <= named
    full, faded = blocks(lesson, WorkedExample)
    assert (len(full.left), len(faded.left)) == (0, 3)
    last = lesson.pieces[-1]
    assert isinstance(last, SelfCheck)
    assert len({[option.right for option in question.options].index(True) for question in last.questions}) > 1
    assert lesson.sources
