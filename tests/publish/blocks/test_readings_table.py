"""The readings table says what the model says; held here to arithmetic done by hand."""

from pathlib import Path

import pytest

from courseware.publish.blocks.readings_table import ReadingsTable
from courseware.publish.teaching import View
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

BLOCK = "```readings-table\nunit: {unit}\ncaption: Readings\nchecks: [{checks}]\nfaults: [{faults}]\n```\n"


def table(folder: Path, shipped: Shipped, unit: str, checks: str, faults: str) -> tuple[ReadingsTable, str]:
    body = with_body(BLOCK.format(unit=unit, checks=checks, faults=faults)).replace("see-the-spark", "order-the-test")
    lesson, problems = read_lesson(folder, body, shipped.teaching)
    block = lesson.pieces[-1]
    assert isinstance(block, ReadingsTable)
    return block, problems


def test_readings_of_a_weak_line_and_a_weak_transformer(tmp_path: Path, shipped: Shipped) -> None:
    checks, faults = "line-voltage, transformer-output, electrode-gap", "line-voltage-low, transformer-weak"
    block, problems = table(tmp_path, shipped, "bay-siphon", checks, faults)
    assert problems == ""
    cells = [[(cell.text, cell.differs) for cell in row.cells] for row in block.rows]
    # At its worst the line is at 96 V: 10 kV x 96/120 = 8.0 kV; the weak transformer gives 0.7 x 10 kV.
    assert cells == [
        [("120 V", False), ("10.0 kV", False), ("0.16 in", False)],
        [("96 V", True), ("8.0 kV", True), ("0.16 in", False)],
        [("120 V", False), ("7.0 kV", True), ("0.16 in", False)],
    ]
    html = block.html(View(paper=True))
    assert '<td class="differs">≠ 8.0 kV</td>' in html
    assert '<th scope="row">' in html
    assert "<thead><tr><td></td>" in html  # an empty th would be a header of nothing


def test_the_table_can_be_scrolled_by_keyboard_on_a_phone(tmp_path: Path, shipped: Shipped) -> None:
    block, _ = table(tmp_path, shipped, "bay-siphon", "line-voltage", "line-voltage-low")
    assert 'class="wide" id="readings-1" role="region" tabindex="0" aria-label="Readings"' in block.html(
        View(paper=False)
    )


@pytest.mark.parametrize(
    ("content", "line", "found"),
    [
        (("bay-siphon", "suction-vacuum", "no-supply"), 19, "'suction-vacuum' does not apply to the unit 'bay-siphon'"),
        (
            ("bay-metered", "line-voltage", "shop-air-off"),
            20,
            "'shop-air-off' does not apply to the unit 'bay-metered'",
        ),
    ],
)
def test_what_the_unit_does_not_have_is_told(
    tmp_path: Path, shipped: Shipped, content: tuple[str, str, str], line: int, found: str
) -> None:
    _, problems = table(tmp_path, shipped, *content)
    assert problems == f"modules/spark.md:{line}: lesson 'spark', block 'readings-table': {found}"
