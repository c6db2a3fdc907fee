"""What is asked is taught: every reading and fault of a question stands in some lesson's table of readings."""

import re
from typing import Any

import pytest
import yaml

from courseware.content.folders import shipped_course
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.faults_behind import FaultsBehind
from courseware.quiz.kinds.reading_meaning import ReadingMeaning
from courseware.quiz.kinds.scenario import Scenario

TABLE = re.compile(r"^```readings-table\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.fixture(scope="module")
def tables() -> list[dict[str, Any]]:
    lessons = sorted((shipped_course() / "modules").glob("**/*.md"))
    return [yaml.safe_load(block) for path in lessons for block in TABLE.findall(path.read_text(encoding="utf-8"))]


def test_every_reading_of_a_question_stands_in_a_table(stock: Stock, tables: list[dict[str, Any]]) -> None:
    taught = {check for table in tables for check in table["checks"]}
    bodies = [template.body for template in stock.bank.templates.values()]
    asked = {
        check for body in bodies if isinstance(body, Scenario | ReadingMeaning | FaultsBehind) for check in body.checks
    }
    assert len(asked) > 8
    assert asked - taught == set()


def test_every_fault_of_a_question_stands_in_a_table(stock: Stock, tables: list[dict[str, Any]]) -> None:
    taught = {fault for table in tables for fault in table["faults"]}
    asked = {
        fault
        for template in stock.bank.templates.values()
        if isinstance(template.body, Scenario)
        or (isinstance(template.body, FaultsBehind) and template.body.checks)  # else the table of complaints has it
        for fault in template.body.faults
    }
    assert len(asked) > 8
    assert asked - taught == set()


def test_every_section_that_feedback_sends_to_is_there(stock: Stock) -> None:
    """Headings found in the text itself, and turned into anchors by a rule of three lines."""
    anchors = set()
    for path in sorted((shipped_course() / "modules").glob("**/*.md")):
        text = path.read_text(encoding="utf-8")
        lesson = re.search(r"^id: (\S+)$", text, re.MULTILINE)
        assert lesson is not None
        for title in re.findall(r"^##+ (.+)$", text, re.MULTILINE):
            words = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
            anchors.add(f"{lesson[1]}#{words}")
    links = {link for link, _ in stock.bank.lesson_links()}
    assert links - anchors == set()
    assert len(links) > 3


def test_every_objective_is_asked_about_and_practised(stock: Stock) -> None:
    for pool in ("graded", "practice"):
        asked = {template.objective for template in stock.bank.templates.values() if template.pool == pool}
        assert asked == set(stock.bank.objectives)
