"""A number in the text has a name or is a fault, told with its line; whole messages are compared."""

from pathlib import Path

import pytest

from tests.publish.sample_teaching import FRONT, read_lesson, with_body

BARE_NUMBER = """\
    allowed: numbers by name, such as {trial-time}
    try: name it under 'numbers' in the front matter, computed or with its origin"""
REFUSED = """\
    allowed: headings, paragraphs, lists, tables, links, and lesson blocks
    try: use a lesson block; figures are drawn from data"""


def test_a_named_number_is_filled_in(tmp_path: Path) -> None:
    lesson, problems = read_lesson(tmp_path, f"{FRONT}The line has {{line}}, *always*.\n")
    assert problems == ""
    assert [str(piece.html) for piece in lesson.pieces if hasattr(piece, "plain")] == [
        "<p>The line has 120\N{NO-BREAK SPACE}V, <em>always</em>.</p>\n"
    ]


def test_a_bare_digit_is_told_with_its_line_and_the_way_out(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body("Wait for the trial.\nIt lasts 15 s, or 1.5 times that.\n"))
    assert problems == (
        f"modules/spark.md:17: lesson 'spark': the bare number '1.5' stands in the text\n{BARE_NUMBER}\n"
        f"modules/spark.md:17: lesson 'spark': the bare number '15' stands in the text\n{BARE_NUMBER}"
    )


@pytest.mark.parametrize(
    ("body", "line", "number"),
    [
        ("## Step 2\n", 16, "2"),
        ("- one\n- the gap is ⅛ in\n", 17, "⅛"),
        ("| a | b |\n| --- | --- |\n| c | 10,000 |\n", 18, "10,000"),
        ("[29 CFR](https://example.org)\n", 16, "29"),
        ("one\\\ntwo\\\n3\n", 18, "3"),
        ("It is {line}1.\n", 16, "1"),
    ],
)
def test_a_bare_digit_is_found_wherever_it_hides(tmp_path: Path, body: str, line: int, number: str) -> None:
    _, problems = read_lesson(tmp_path, with_body(body))
    assert problems == (
        f"modules/spark.md:{line}: lesson 'spark': the bare number '{number}' stands in the text\n{BARE_NUMBER}"
    )


def test_list_markers_and_addresses_are_no_numbers(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body("1. Shut it.\n2. Lock it, see [here](https://example.org/147).\n"))
    assert problems == ""


def test_an_unknown_name_lists_the_known_ones(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body("It has {lime}.\n"))
    assert problems == (
        "modules/spark.md:16: lesson 'spark': the text uses the number 'lime', which the front matter does not name\n"
        "    allowed: line\n"
        "    try: did you mean 'line'?"
    )


def test_a_number_that_nobody_uses_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, f"{FRONT}The line is live.\n")
    assert problems == (
        "modules/spark.md:10: lesson 'spark': the text does not use the number 'line'\n    try: use it or delete it"
    )


@pytest.mark.parametrize(
    ("body", "what"),
    [
        ("    indented\n", "an indented code block"),
        ("See ![the post](post.png).\n", "an image"),
        ("Press `reset`.\n", "code in backticks"),
    ],
)
def test_markdown_that_a_lesson_cannot_have(tmp_path: Path, body: str, what: str) -> None:
    path = tmp_path / "x"
    path.mkdir()
    _, problems = read_lesson(path, f"{FRONT}The line has {{line}}.\n\n{body}")
    assert problems == f"modules/spark.md:16: lesson 'spark': {what}\n{REFUSED}"


def test_html_is_shown_as_written_not_run(tmp_path: Path) -> None:
    lesson, problems = read_lesson(tmp_path, with_body("A <script>alert</script> of {line}.\n"))
    assert problems == ""
    assert "&lt;script&gt;" in str(lesson.pieces[0].html)
