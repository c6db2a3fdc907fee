"""A figure block: caption, drawing with a text alternative, the data as a table."""

from pathlib import Path

from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.teaching import View
from tests.publish.figures.test_quantity_curve import CURVE
from tests.publish.sample_teaching import read_lesson, with_body


def test_the_drawing_has_a_title_and_a_table(tmp_path: Path) -> None:
    lesson, problems = read_lesson(tmp_path, with_body(f"```figure\n{CURVE}```\n"))
    assert problems == ""
    block = lesson.pieces[-1]
    assert isinstance(block, FigureBlock)
    screen, paper = block.html(View(paper=False)), block.html(View(paper=True))
    assert '<svg role="img" aria-labelledby="figure-1-title" viewBox="0 0 400' in screen
    assert '<title id="figure-1-title">Secondary voltage of an ignition transformer against' in screen
    assert "<summary>The figure as a table</summary>" in screen
    assert "<summary>" not in paper
    assert '<th scope="col">Point</th>' in paper


def test_an_unknown_kind_is_told_once(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body("```figure\nkind: pie\ncaption: A\nreads: B\nslices: [a]\n```\n"))
    assert problems == (
        "modules/spark.md:17: lesson 'spark', block 'figure': 'kind' is 'pie'\n    allowed: "
        "doubt-chart, quantity-curve, sequence-chart, what-is-left-chart"
    )
