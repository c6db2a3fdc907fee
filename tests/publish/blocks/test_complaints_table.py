"""The complaints table says what the model says, held here to what the parts must do by their nature."""

from pathlib import Path

from courseware.publish.blocks.complaints_table import ComplaintsTable
from courseware.publish.teaching import View
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

BLOCK = "```complaints-table\ncaption: What customers say\nunits: [{units}]\n```\n"
BOTH = "bay-siphon, bay-metered"


def table(folder: Path, shipped: Shipped, units: str) -> tuple[ComplaintsTable, str]:
    body = with_body(BLOCK.format(units=units)).replace("see-the-spark", "order-the-test")
    lesson, problems = read_lesson(folder, body, shipped.teaching)
    block = lesson.pieces[-1]
    assert isinstance(block, ComplaintsTable)
    return block, problems


def test_repairs_stand_where_the_sequence_would_break(tmp_path: Path, shipped: Shipped) -> None:
    block, problems = table(tmp_path, shipped, BOTH)
    assert problems == ""
    found = {group.complaint: dict(group.repairs) for group in block.groups}
    title = {name: repair.title for name, repair in shipped.teaching.trade.repairs.items()}
    # No motor: what feeds or calls the control, alike on both units.
    for name in ("restore-supply", "repair-thermostat", "replace-control"):
        assert found["nothing-happens"][title[name]] == (True, True)
    # Only a unit with an air switch runs on without a trial, and only for want of air.
    assert found["fan-runs-no-flame"][title["set-air-regulator"]] == (False, True)
    assert found["fan-runs-no-flame"][title["replace-compressor"]] == (False, True)
    assert found["no-flame-red-light"][title["set-air-regulator"]][0]
    # A flame that the control does not see is the sensor's.
    for name in ("clean-sensor", "replace-sensor"):
        assert found["lights-then-quits"][title[name]] == (True, True)


def test_each_repair_is_named_once_a_complaint_and_a_sound_unit_is_named(tmp_path: Path, shipped: Shipped) -> None:
    block, _ = table(tmp_path, shipped, "bay-siphon")
    assert all(len(dict(group.repairs)) == len(group.repairs) > 0 for group in block.groups)
    assert "fan-runs-no-flame" not in {group.complaint for group in block.groups}  # never brought by this unit
    assert block.groups[-1].repairs[0] == ("nothing wrong", (True,))


def test_the_page_groups_the_repairs_under_the_words_of_the_customer(tmp_path: Path, shipped: Shipped) -> None:
    html = table(tmp_path, shipped, BOTH)[0].html(View(paper=False))
    assert '<th colspan="3" scope="rowgroup">\u201cNo heat.' in html
    assert "<td>no</td><td>yes</td>" in html
    assert 'class="wide" id="complaints-1" role="region" tabindex="0" aria-label="What customers say"' in html


def test_a_unit_that_the_bank_does_not_have_is_told(tmp_path: Path, shipped: Shipped) -> None:
    _, problems = table(tmp_path, shipped, "bay-syphon")
    assert problems.startswith("modules/spark.md:18: lesson 'spark', block 'complaints-table'")
    assert "did you mean 'bay-siphon'?" in problems
