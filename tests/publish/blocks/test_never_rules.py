"""Never-rules are shown in the bank's own words, gravest first."""

from pathlib import Path

from courseware.publish.blocks.never_rules import NeverRules
from courseware.publish.teaching import View
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

OBJECTIVE = "see-the-spark", "order-the-test"


def test_rules_come_from_the_bank_gravest_first(tmp_path: Path, shipped: Shipped) -> None:
    rules = shipped.teaching.safework.rules
    warning = next(rule for rule in rules.values() if rule.signal_word == "WARNING")
    danger = next(rule for rule in rules.values() if rule.signal_word == "DANGER")
    body = with_body(f"```never-rules\nrules: [{warning.id}, {danger.id}]\n```\n").replace(*OBJECTIVE)
    lesson, problems = read_lesson(tmp_path, body, shipped.teaching)
    assert problems == ""
    block = lesson.pieces[-1]
    assert isinstance(block, NeverRules)
    html = block.html(View(paper=True)).unescape()
    assert html.index(danger.title) < html.index(danger.reason) < html.index(warning.title) < html.index(warning.reason)
    assert html.count('<span class="signal-symbol">') == 2


def test_an_unknown_rule_is_told(tmp_path: Path) -> None:
    _, problems = read_lesson(tmp_path, with_body("```never-rules\nrules: [reset-agian]\n```\n"))
    assert problems == (
        "modules/spark.md:17: lesson 'spark', block 'never-rules': 'rules' names the rule "
        "'reset-agian', which does not exist"
    )
