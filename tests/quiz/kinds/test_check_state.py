"""Checks by the state of the power: every key read again out of the question bank's own text."""

from typing import Any

import pytest
import yaml

from courseware.content.folders import shipped_course
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.check_state import KIND
from tests.quiz.making import RULES, any_question, fields_of, report

NEEDS = {"locked": ["locked"], "on": [True]}  # YAML 1.1, which this reader follows, takes on for true


@pytest.fixture(scope="module")
def written() -> dict[str, Any]:
    text = (shipped_course() / "question_bank" / "checks.yaml").read_text(encoding="utf-8")
    return {check["title"]: check for check in yaml.safe_load(text)["checks"]}


def test_the_key_is_what_the_checks_need(stock: Stock, written: dict[str, Any]) -> None:
    body = stock.bank.templates["state-of-the-power"].body
    seen = set()
    for seed in range(40):
        question = KIND.draw(body, stock.materials, open_chance("state", str(seed)), any_question)
        assert question is not None
        state = question.identity.split("|")[1]
        assert ("locked out" in question.stem[0]) == (state == "locked")
        assert len(question.options) == 5
        assert 2 <= len(question.several) <= 4
        for place, option in enumerate(question.options):
            assert (written[option.text]["needs"]["power"] == NEEDS[state]) == (place in question.several)
            assert option.feedback == " ".join(written[option.text]["asks"].split())
        seen.add(state)
    assert seen == {"locked", "on"}


def test_a_check_that_needs_no_state_of_the_power_is_told(stock: Stock) -> None:
    fields, problems = fields_of("checks: [line-voltage, tank-level, spark]\noptions: 5\n")
    KIND.load(fields, stock.materials.trade, RULES)
    told = report(problems).split("\n")
    assert told[0] == "items.yaml:1: item 'x': 'checks' names the check 'spark', which does not exist"
    assert told[-1] == "items.yaml:1: item 'x': the check 'tank-level' needs the power neither on nor locked out"
