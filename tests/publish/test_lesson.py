"""What a lesson file can get wrong outside its blocks, each with its whole message; and what comes of a sound one."""

import re
from pathlib import Path

import pytest

from courseware.publish.blocks import BLOCK_KINDS
from courseware.publish.figures import FIGURE_KINDS
from courseware.publish.lesson import render_lesson, slug
from courseware.publish.pages import Imprint
from tests.publish.sample_teaching import BARE, FRONT, read_lesson, with_body

HERE = Path(__file__).parent


def test_every_kind_has_a_test_file_of_its_name() -> None:
    for folder, kinds in (("blocks", BLOCK_KINDS), ("figures", FIGURE_KINDS)):
        tested = {path.stem.removeprefix("test_") for path in (HERE / folder).glob("test_*.py")}
        assert tested == {kind.replace("-", "_") for kind in kinds}


@pytest.mark.parametrize(
    ("body", "report"),
    [
        (
            "```cautoin\nword: DANGER\n```\n",
            (
                "16: lesson 'spark': the block kind 'cautoin' does not exist\n"
                "    allowed: caution, complaints-table, figure, never-rules, procedure, readings-table, self-check, "
                "what-is-left, work-order, worked-example\n"
                "    try: did you mean 'caution'?"
            ),
        ),
        ("```caution\n```\n", "16: lesson 'spark': the block 'caution' is empty"),
        (
            "- one\n\n  ```caution\n  word: DANGER\n  ```\n",
            (
                "18: lesson 'spark': a lesson block stands inside a list or a quote\n"
                "    allowed: lesson blocks start at the left margin"
            ),
        ),
        (
            "# Spark\n",
            (
                "16: lesson 'spark': a heading of level 1\n    allowed: level 2 to 2 here; the title of the "
                "lesson is level 1"
            ),
        ),
        (
            "## Spark\n\n#### Gap\n",
            (
                "18: lesson 'spark': a heading of level 4\n    allowed: level 2 to 3 here; the title of the "
                "lesson is level 1"
            ),
        ),
        (
            "## The gap\n\ntext\n\n## The  gap\n",
            (
                "20: lesson 'spark': a second section is called 'the-gap' on the page\n"
                "    try: give one of the two headings other words"
            ),
        ),
        (
            "```caution\nword: DANGER\ntitle: A\nsays: B\nsize: big\n```\n",
            "20: lesson 'spark', block 'caution': unknown key 'size'\n    allowed: says, title, word",
        ),
        (
            (
                "Notwithstanding considerable theoretical sophistication, practical investigations necessitate "
                "comprehensive documentation.\n"
            ),
            (
                "2: lesson 'spark': the lesson reads at school grade 27.7\n    allowed: at most grade 9.0\n"
                "    try: cut long sentences in two and swap long words for short ones"
            ),
        ),
    ],
)
def test_a_faulty_body_gives_its_whole_message(tmp_path: Path, body: str, report: str) -> None:
    _, problems = read_lesson(tmp_path, with_body(body))
    head, _, rest = problems.partition("\n")
    expected, _, advice = report.partition("\n")
    if "reads at" in expected:  # the grade itself is the counter's business
        head, expected = (re.sub(r"grade [\d.]+$", "grade", text) for text in (head, expected))
    assert (head, rest) == (f"modules/spark.md:{expected}", advice)


@pytest.mark.parametrize(
    ("old", "new", "report"),
    [
        (
            "minutes: 5", "minute: 5",
            ("modules/spark.md:2: lesson 'spark': the key 'minutes' is missing\n    try: add a line 'minutes: ...'\n"
            "modules/spark.md:7: lesson 'spark': unknown key 'minute'\n"),
        ),
        (
            "[see-the-spark]", "[see-the-sparks]",
            ("modules/spark.md:8: lesson 'spark': 'objectives' names the objective 'see-the-sparks', which "
            "does not exist\n"
            "    allowed: see-the-spark\n    try: did you mean 'see-the-spark'?"),
        ),
        (
            "origin: common practice, no source\n---", "---",
            "modules/spark.md:2: lesson 'spark': the key 'origin' is missing\n    try: add a line 'origin: ...'",
        ),
    ],
)  # fmt: skip
def test_faulty_front_matter_gives_its_message(tmp_path: Path, old: str, new: str, report: str) -> None:
    _, problems = read_lesson(tmp_path, with_body("Look at it.\n").replace(old, new))
    assert problems.startswith(report)


def test_a_lesson_without_text_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(
        tmp_path, FRONT.replace("numbers:\n  line: {value: 120 V, origin: rating of the unit}\n", "")
    )
    assert problems == "modules/spark.md:2: lesson 'spark': the lesson has no text"


def test_a_company_may_set_its_own_reading_grade(tmp_path: Path) -> None:
    hard = "Notwithstanding considerable sophistication, investigations necessitate comprehensive documentation.\n"
    _, problems = read_lesson(tmp_path, with_body(hard).replace("sources:", "reading_grade: 40\nsources:"))
    assert problems == ""


def test_anchors_are_made_of_the_headings_words() -> None:
    assert slug("The test, step by step") == "the-test-step-by-step"


def test_the_page_says_whether_a_technician_has_reviewed_it(tmp_path: Path) -> None:
    lesson, _ = read_lesson(tmp_path, with_body("## The gap\n\nLook at it.\n"))
    page = render_lesson(lesson, BARE, Imprint("A course", "1.0"))
    assert "Technical review: not reviewed by a licensed technician" in page
    assert '<h2 id="the-gap">The gap</h2>' in page
    assert '<a href="#the-gap">The gap</a>' in page
    assert lesson.anchors == {"the-gap"}
    reviewed = with_body("Look.\n").replace(
        "no source\n---", "no source\nreviewed: {by: R. Vance, on: 2026-10-01}\n---"
    )
    lesson, problems = read_lesson(tmp_path, reviewed)
    assert problems == ""
    assert "reviewed by R. Vance on 2026-10-01" in render_lesson(lesson, BARE, Imprint("A course", "1.0"))


def test_the_page_tells_where_each_number_comes_from(tmp_path: Path) -> None:
    lesson, _ = read_lesson(tmp_path, with_body("Look at it.\n"))
    page = render_lesson(lesson, BARE, Imprint("A course", "1.0"))
    assert "<tr><td>120\N{NO-BREAK SPACE}V</td><td>rating of the unit</td></tr>" in page
