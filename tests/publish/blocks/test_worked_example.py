"""Worked examples: all steps shown, or the last ones left to the reader, and never a gap in the middle."""

from pathlib import Path

from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.teaching import View
from tests.publish.sample_teaching import read_lesson, with_body

HEAD = (
    '```worked-example\ntitle: A weak line\nasks: Is it the line?\ngiven:\n  - {what: Line, value: "{line}"}\nsteps:\n'
)
FIRST = "  - {work: Read the line., result: It is low.}\n"
LAST = "  - {work: Name the repair., result: Call an electrician., yours: true}\n"


def example(folder: Path, steps: str) -> tuple[WorkedExample, str]:
    lesson, problems = read_lesson(folder, with_body(f"{HEAD}{steps}```\n"))
    block = lesson.pieces[-1]
    assert isinstance(block, WorkedExample)
    return block, problems


def test_a_full_example_shows_every_result(tmp_path: Path) -> None:
    block, problems = example(tmp_path, FIRST)
    assert problems == ""
    html = block.html(View(paper=True))
    assert "Worked example" in html
    assert '<th scope="row">Line</th><td>120\N{NO-BREAK SPACE}V</td>' in html
    assert '<span class="result">It is low.</span>' in html
    assert not block.answers


def test_last_steps_are_left_to_the_reader(tmp_path: Path) -> None:
    block, problems = example(tmp_path, FIRST + LAST)
    assert problems == ""
    screen, paper = block.html(View(paper=False)), block.html(View(paper=True))
    assert "Your turn" in screen
    assert "<details><summary>Show step 2</summary><p>Call an electrician.</p></details>" in screen
    assert "Call an electrician." not in paper
    assert "<p>Name the repair. <b>Call an electrician.</b></p>" in block.answers


def test_a_gap_in_the_middle_is_told(tmp_path: Path) -> None:
    _, problems = example(tmp_path, LAST + FIRST)
    assert problems == (
        "modules/spark.md:23: lesson 'spark', block 'worked-example', step 2: a step follows one that "
        "is left to the reader\n"
        "    allowed: only the last steps may be left to the reader"
    )
