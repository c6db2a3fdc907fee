"""Self-checks: one right option, every option explained, answers after the question."""

from pathlib import Path

import pytest

from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.teaching import View
from tests.publish.sample_teaching import read_lesson, with_body

RIGHT = "      - {says: The air draws it, right: true, because: No air means no oil.}\n"
WRONG = "      - {says: The pump, because: This unit has none.}\n"


def body(options: str) -> str:
    return with_body(f"```self-check\nquestions:\n  - ask: What moves the oil?\n    options:\n{options}```\n")


def test_answers_unfold_on_the_screen_and_stand_at_the_end_on_paper(tmp_path: Path) -> None:
    lesson, problems = read_lesson(tmp_path, body(RIGHT + WRONG))
    assert problems == ""
    block = lesson.pieces[-1]
    assert isinstance(block, SelfCheck)
    screen, paper = block.html(View(paper=False)), block.html(View(paper=True))
    assert screen.index("What moves the oil?") < screen.index("<details>") < screen.index("No air means no oil.")
    assert "<details>" not in paper
    assert "No air means no oil." not in paper
    assert "<p><b>A</b> <b>Right.</b> No air means no oil.</p>" in block.answers
    assert "<p><b>B</b> No. This unit has none.</p>" in block.answers


@pytest.mark.parametrize(
    ("options", "found"),
    [
        (WRONG + WRONG, "the question has 2 options, 0 of them right"),
        (RIGHT + RIGHT, "the question has 2 options, 2 of them right"),
        (RIGHT, "the question has 1 options, 1 of them right"),
    ],
)
def test_a_question_has_one_right_option(tmp_path: Path, options: str, found: str) -> None:
    _, problems = read_lesson(tmp_path, body(options))
    assert problems == (
        f"modules/spark.md:19: lesson 'spark', block 'self-check', question 1: {found}\n"
        "    allowed: at least two options, exactly one of them right"
    )


def test_an_option_without_an_explanation_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, body(RIGHT + "      - {says: The pump}\n"))
    assert problems == (
        "modules/spark.md:21: lesson 'spark', block 'self-check', question 1, option 2: the key 'because' is missing\n"
        "    try: add a line 'because: ...'"
    )
