"""Safety messages carry a signal word of ANSI Z535.4, or NOTICE."""

from pathlib import Path

import pytest

from courseware.publish.blocks.caution import Caution
from courseware.publish.teaching import View
from tests.publish.sample_teaching import read_lesson, with_body

BLOCK = "```caution\nword: {word}\ntitle: High voltage at {{line}}\nsays: Keep clear of the posts.\n```\n"


@pytest.mark.parametrize("word", ["DANGER", "WARNING", "CAUTION", "NOTICE"])
def test_each_signal_word_has_its_panel(tmp_path: Path, word: str) -> None:
    lesson, problems = read_lesson(tmp_path, with_body(BLOCK.format(word=word)))
    assert problems == ""
    block = lesson.pieces[-1]
    assert isinstance(block, Caution)
    html = block.html(View(paper=False))
    assert f'<div class="signal signal-{word.lower()}" role="note" aria-label="{word}: High voltage at 120' in html
    assert f'<p class="signal-word"><span class="signal-symbol"></span>{word}</p>' in html
    assert "<p>Keep clear of the posts.</p>" in html
    assert not block.answers


def test_another_word_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body(BLOCK.format(word="ATTENTION")))
    assert problems == (
        "modules/spark.md:17: lesson 'spark', block 'caution': 'word' is 'ATTENTION'\n"
        "    allowed: CAUTION, DANGER, NOTICE, WARNING\n"
        "    try: did you mean 'CAUTION'?"
    )


def test_a_bare_digit_in_a_message_is_told_at_its_line(tmp_path: Path) -> None:
    body = BLOCK.format(word="DANGER").replace("the posts", "the 10,000 V posts")
    _, problems = read_lesson(tmp_path, with_body(body))
    assert problems == (
        "modules/spark.md:19: lesson 'spark': the bare number '10,000' stands in the text\n"
        "    allowed: numbers by name, such as {trial-time}\n"
        "    try: name it under 'numbers' in the front matter, computed or with its origin"
    )
