"""A work order shows unit and complaint by title, from the bank."""

from pathlib import Path

from courseware.publish.blocks.work_order import WorkOrder
from courseware.publish.teaching import View
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

BLOCK = (
    "```work-order\ncustomer: A shop\nunit: {unit}\ncomplaint: {complaint}\nsays: No heat.\nfound: Red light on.\n```\n"
)


def test_titles_come_from_the_bank(tmp_path: Path, shipped: Shipped) -> None:
    trade = shipped.teaching.trade
    unit, complaint = next(iter(trade.units.values())), trade.complaints[0]
    body = with_body(BLOCK.format(unit=unit.id, complaint=complaint.id))
    lesson, problems = read_lesson(tmp_path, body.replace("see-the-spark", "order-the-test"), shipped.teaching)
    assert "does not exist" not in problems
    block = lesson.pieces[-1]
    assert isinstance(block, WorkOrder)
    html = block.html(View(paper=True))
    assert f"<b>{unit.title}</b>" in html
    assert f"<b>{complaint.title}</b>" in html
    assert html.index("No heat.") < html.index("Red light on.")


def test_an_unknown_unit_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body(BLOCK.format(unit="bay", complaint="cold")))
    assert problems == (
        "modules/spark.md:18: lesson 'spark', block 'work-order': 'unit' names the unit 'bay', which does not exist\n"
        "modules/spark.md:19: lesson 'spark', block 'work-order': 'complaint' names the complaint "
        "'cold', which does not exist"
    )
