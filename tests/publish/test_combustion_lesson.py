"""The lesson on combustion: its numbers worked by hand, its figures, tables and claims, and the order of its sheet."""

from itertools import pairwise

import pytest

from courseware.heater.readings import shown, true_values
from courseware.heater.simulate import simulate
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
    return shipped_lesson("combustion", shipped.teaching)


def test_it_comes_fifth_and_reads_at_grade_nine_or_below(lesson: Lesson) -> None:
    assert lesson.order == 5
    assert prose_grade(lesson) <= 9.0  # the bar is the course's own
    assert lesson.grade <= 9.0
    assert {
        "draft-comes-first",
        "what-the-readings-mean",
        "work-it-out",
        "when-the-heater-must-not-run",
    } <= lesson.anchors


def test_its_sums_worked_by_hand(lesson: Lesson) -> None:
    text = written(lesson)
    assert text["air-needed"] == "14"  # 11.52 x 0.855 + 34.56 x (0.128 - 0.00125) + 4.32 x 0.005 = 14.25
    assert text["oxygen-of-25"] == "4.4%"  # 20.946 x 0.25 / (0.25 + 0.937)
    assert text["factor"] == "1.35"  # (20.9 - 4.68) / 12.02; EPA's published F factors give 1.353
    assert text["sample-air-free"] == "211 ppm"  # 120 x 20.9 / 11.9 = 210.8
    assert text["net"] == "450 °F net (250 °C net)"  # 520 - 70; / 1.8
    assert text["found-excess"] == "84%"  # 93.7 x 9.9 / (20.946 - 9.9) = 83.98
    assert text["found-air-free"] == "1,488 ppm"  # 783 x 20.9 / 11.0 = 1,487.7
    assert text["ash-excess"] == "30%"  # 93.7 x 5.1 / 15.846 = 30.2
    assert (text["one-air-free"], text["two-air-free"]) == (
        "575 ppm",
        "495 ppm",
    )  # 300 x 20.9 / 10.9; 400 x 20.9 / 16.9
    # 18 ft by the ASHRAE form 0.2554 x 29.92 x 18 (1 / To - 1 / Tm), in degrees Rankine (from memory)
    assert text["cold-day"] == "0.11 inWC (26 Pa)"  # To 479.67, Tm 759.67: 0.1057
    assert text["mild-day"] == "0.08 inWC (21 Pa)"  # To 519.67: 0.0836
    # lower basis: 250 x (0.68 / (21 - 4.68) + 0.007) = 12.2 lost; six points more are lost on the higher one
    assert (text["lower"], text["higher"]) == ("88%", "82%")


def test_its_limits_are_the_published_ones(lesson: Lesson) -> None:
    text = written(lesson)
    # NIOSH: 35 ppm, ceiling 200 ppm, IDLH 1,200 ppm; OSHA: 50 ppm; 9 ppm common practice; ANSI Z21: 400 ppm air-free
    names = ("watch", "leave", "osha", "ceiling", "deadly", "co-stop")
    assert [text[name] for name in names] == ["9 ppm", "35 ppm", "50 ppm", "200 ppm", "1,200 ppm", "400 ppm"]
    assert (text["factor-low"], text["factor-high"]) == ("1.21", "1.41")  # EPA Method 3, from memory


# A cited number that a sum stands on has to be what the model shows to a technician: number, unit, check, faults.
COPIED = {
    "found-oxygen": ("bay-siphon", "flue-oxygen", {"preheater-open": 1.0, "air-band-open": 0.5}),
    "found-monoxide": ("bay-siphon", "flue-monoxide", {"preheater-open": 1.0, "air-band-open": 0.5}),
    "ash-oxygen": ("bay-metered", "flue-oxygen", {"exchanger-sooted": 0.5}),
    "ash-stack": ("bay-metered", "net-stack", {"exchanger-sooted": 0.5}),
    "clean-stack": ("bay-metered", "net-stack", {}),
}


@pytest.mark.parametrize("name", COPIED)
def test_what_is_copied_from_the_model_is_still_so(shipped: Shipped, lesson: Lesson, name: str) -> None:
    unit_id, check_id, faults = COPIED[name]
    trade = shipped.teaching.trade
    unit, check = trade.units[unit_id], trade.checks[check_id]
    run = simulate(unit, [tuple((trade.faults[fault], grade) for fault, grade in faults.items())])
    reading = shown(unit, check, float(true_values(unit, check, run)[0])).replace("\N{NO-BREAK SPACE}", " ")
    assert written(lesson)[name].split(" (")[0] == reading


def test_the_spots_in_the_record_are_the_model_s(shipped: Shipped, lesson: Lesson) -> None:
    trade = shipped.teaching.trade
    faulty = ((trade.faults["preheater-open"], 1.0), (trade.faults["air-band-open"], 0.5))
    smoke = simulate(trade.units["bay-siphon"], [faulty, ()]).signals["burner.smoke"][-1]
    text = written(lesson)
    assert [text["found-number"], text["left-number"]] == [f"{spot:.0f}" for spot in smoke]


def test_opening_the_band_thins_the_number_and_not_the_fire(lesson: Lesson) -> None:
    """The claim after the first example: fewer ppm with the band open, and the same air-free."""
    text = {name: value.split()[0].replace(",", "").rstrip("%") for name, value in written(lesson).items()}
    assert float(text["found-monoxide"]) < 0.8 * float(text["marked-monoxide"])
    assert float(text["found-air-free"]) == pytest.approx(float(text["marked-air-free"]), rel=0.01)
    assert float(text["found-oxygen"]) > float(text["marked-oxygen"]) + 3
    # and what the second example costs: some five points
    assert float(text["clean-efficiency"]) - float(text["ash-efficiency"]) == pytest.approx(4.7, abs=0.4)


def test_its_figures_show_what_their_words_say(lesson: Lesson) -> None:
    oxygen, dioxide, draft, efficiency = [block.figure.table.rows for block in blocks(lesson, FigureBlock)]
    values = [[float(row[2].split()[0].rstrip("%")) for row in rows] for rows in (oxygen, dioxide, draft, efficiency)]
    assert values[0][0] < values[0][1]  # oxygen climbs all the way
    assert values[1][0] == pytest.approx(values[1][1], abs=0.1)  # one carbon dioxide, two fires
    assert values[2][1] / values[2][0] == pytest.approx(18 / 10, rel=0.1)  # each foot counts the same
    lost = (values[3][0] - values[3][1]) / 1.5  # 450 to 600 °F net
    assert lost == pytest.approx(2.5, abs=0.3)  # "some two and a half points" for a hundred degrees


def rows(table: ReadingsTable) -> dict[str, dict[str, tuple[str, bool]]]:
    """Return each fault's cells by check: the reading, and whether its verdict differs from a heater in order."""
    return {
        row.fault: {
            check: (cell.text, cell.differs) for check, cell in zip(table.checks, row.cells, strict=True)
        }
        for row in table.rows
    }  # fmt: skip


def test_its_tables_hold_what_the_text_reads_out_of_them(shipped: Shipped, lesson: Lesson) -> None:
    siphon, metered, settles, draft = [rows(table) for table in blocks(lesson, ReadingsTable)]
    fault = {name: one.title for name, one in shipped.teaching.trade.faults.items()}
    check = {name: one.title for name, one in shipped.teaching.trade.checks.items()}
    oxygen, spot, stack = check["flue-oxygen"], check["smoke-spot"], check["net-stack"]
    for table in (siphon, metered):
        # a dead preheater smokes with oxygen as it was; a closed band smokes with none left
        assert table[fault["preheater-open"]][spot][1]
        assert not table[fault["preheater-open"]][oxygen][1]
        assert table[fault["air-band-closed"]][spot][1]
        assert table[fault["air-band-closed"]][oxygen][0] == "0.0%"
        # much air: no smoke, and no draft over the fire; ash: a hot stack with oxygen as it was
        assert not table[fault["air-band-open"]][spot][1]
        assert table[fault["air-band-open"]][check["fire-draft"]][1]
        assert table[fault["exchanger-sooted"]][stack][1]
        assert not table[fault["exchanger-sooted"]][oxygen][1]
    # the worn nozzle: more oil on the siphon unit, the same oil on the metered one
    assert siphon[fault["nozzle-worn"]][oxygen][1]
    assert not metered[fault["nozzle-worn"]][oxygen][1]
    # each fault of the third table is settled by one look
    assert all(sum(cell[1] for cell in settles[name].values()) == 1 for name in settles if name != "nothing wrong")
    # the crack shows when the fan starts, and nowhere else in its table
    crack = draft[fault["exchanger-cracked"]]
    assert [name for name, cell in crack.items() if cell[1]] == [check["oxygen-with-fan"]]
    sooted = draft[fault["exchanger-sooted"]]
    assert (sooted[check["fire-draft"]][1], sooted[check["breech-draft"]][1]) == (True, False)


ORDER = (
    "wear-co-monitor", "open-test-holes", "warm-burner-up", "read-draft", "pull-smoke-spot", "read-flue-gas",
    "read-stack-temperature", "set-draft", "clear-smoke", "set-oxygen", "read-all-as-left", "plug-test-holes",
    "write-record", "hand-back",
)  # fmt: skip


def test_its_sheet_keeps_the_order_of_the_trade_on_both_units(shipped: Shipped, lesson: Lesson) -> None:
    # Draft, smoke, oxygen, temperature; all of it as found before anything is set: common practice, no source.
    (sheet,) = blocks(lesson, JobSheet)
    assert {unit.id for unit in sheet.units} == {"bay-siphon", "bay-metered"}
    actions = shipped.teaching.safework.actions
    number = {row.title: row.numbers for _, part in sheet.parts for row in part}
    for unit in range(2):
        places = [number[actions[name].title][unit] for name in ORDER]
        assert all(one is not None and later is not None and one < later for one, later in pairwise(places))


def test_it_names_the_rules_that_matter_and_the_words_of_danger(lesson: Lesson) -> None:
    (rules,) = blocks(lesson, NeverRules)
    named = {rule.id for rule in rules.rules}
    assert {"no-co-monitor", "co-above-35", "co-above-9", "cracked-exchanger", "blocked-flue"} <= named
    assert {"air-set-by-eye", "test-hole-left-open", "ash-blown", "ash-hot", "solvent-burned"} <= named
    assert [block.word for block in blocks(lesson, Caution)] == ["DANGER", "WARNING", "WARNING", "WARNING"]


def test_it_shows_one_example_and_leaves_the_end_of_another(lesson: Lesson) -> None:
    full, faded = blocks(lesson, WorkedExample)
    assert (len(full.left), len(faded.left)) == (0, 3)
    last = lesson.pieces[-1]
    assert isinstance(last, SelfCheck)
    assert len(last.questions) >= 5
    assert len({[option.right for option in question.options].index(True) for question in last.questions}) > 2
    assert lesson.sources
