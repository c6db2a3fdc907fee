"""The table of what is left of a call: shares, minutes and the next check, held to the model's own call."""

from pathlib import Path

import pytest

from courseware.publish.blocks.what_is_left import WhatIsLeft
from courseware.publish.teaching import View
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

BLOCK = "```what-is-left\ncaption: What is left\nunit: bay-metered\nfaults: {faults}\nchecks: [{checks}]\n{more}```\n"


def table(folder: Path, shipped: Shipped, faults: str, checks: str, more: str = "") -> tuple[WhatIsLeft, str]:
    body = with_body(BLOCK.format(faults="{" + faults + "}", checks=checks, more=more))
    lesson, problems = read_lesson(folder, body.replace("see-the-spark", "order-the-test"), shipped.teaching)
    block = lesson.pieces[-1]
    assert isinstance(block, WhatIsLeft)
    return block, problems


def test_a_full_tank_takes_its_repair_off_the_list(tmp_path: Path, shipped: Shipped) -> None:
    block, problems = table(tmp_path, shipped, "strainer-plugged: 1", "blower-turns, tank-level")
    assert problems == ""
    assert [column.minutes for column in block.columns] == ["0 min", "2 min", "7 min"]
    rows = dict(block.rows)
    title = {name: repair.title for name, repair in shipped.teaching.trade.repairs.items()}
    assert rows[title["fill-tank"]][2] in {"none", "under 1"}
    assert rows[title["replace-burner-motor"]][1] in {"none", "under 1"}
    assert int(rows[title["clean-strainer"]][2]) > int(rows[title["clean-strainer"]][0])
    assert all(" min)" in column.following for column in block.columns)


def test_the_page_heads_every_row_and_column(tmp_path: Path, shipped: Shipped) -> None:
    html = table(tmp_path, shipped, "strainer-plugged: 1", "blower-turns")[0].html(View(paper=False))
    assert 'class="wide" id="left-1" role="region" tabindex="0" aria-label="What is left"' in html
    assert '<th scope="col">The customer says:<br><span class="repair">It starts up' in html
    assert '<th scope="row">Minutes so far</th><td>0 min</td><td>2 min</td>' in html
    assert "if one thing is wrong." in html


def test_two_faults_may_be_allowed(tmp_path: Path, shipped: Shipped) -> None:
    one, _ = table(tmp_path, shipped, "tank-empty: 1", "tank-level")
    two, problems = table(tmp_path, shipped, "tank-empty: 1", "tank-level", "premise: one-or-two\n")
    assert problems == ""
    assert two.premise == "one or two things are wrong"
    assert len(two.rows) > len([row for row in one.rows if row[1][1] not in {"none", "under 1"}])


@pytest.mark.parametrize(
    ("written", "report"),
    [
        (
            ("strainer-plugged: 1", "primary-tap", ""),
            "20: lesson 'spark', block 'what-is-left': 'checks' names the check 'primary-tap', which does not exist",
        ),
        (
            ("tank-empty: 1, oil-solenoid-open: 1", "tank-level, oil-solenoid-coil", ""),
            (
                "20: lesson 'spark', block 'what-is-left': these readings cannot stand together on this unit "
                "(one thing is wrong): Oil above the pickup: no oil above the pickup; "
                "Coil of the oil solenoid: coil open"
            ),
        ),
        (
            ("strainer-plugged: 1", "tank-level", "premise: three\n"),
            "21: lesson 'spark', block 'what-is-left': 'premise' is 'three'",
        ),
    ],
)
def test_faults_are_told_whole(tmp_path: Path, shipped: Shipped, written: tuple[str, str, str], report: str) -> None:
    assert table(tmp_path, shipped, *written)[1].startswith(f"modules/spark.md:{report}")
