"""What a reading tells: the band found again by pint and plain comparison from the files as they are written."""

import re
from pathlib import Path
from typing import Any

import pint
import pytest
import yaml

from courseware.content.folders import shipped_course
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.reading_meaning import KIND
from tests.quiz.making import any_question, fields_of, report

UNITS = {
    "inHg": "inHg", "psig": "psi", "in": "inch", "kohm": "kohm", "ohm": "ohm", "kV": "kV", "V": "V", "%": "percent",
    "ppm": "ppm",
}  # fmt: skip


@pytest.fixture(scope="module")
def drawn(stock: Stock) -> list[Drawn]:
    found = [
        KIND.draw(template.body, stock.materials, open_chance(name, str(seed)), any_question)
        for name, template in stock.bank.templates.items()
        if template.kind == "reading-meaning"
        for seed in range(80)
    ]
    return [question for question in found if question is not None]


def bank() -> Path:
    return shipped_course() / "question_bank"


def read(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def test_the_right_option_is_the_band_that_the_reading_lies_in(drawn: list[Drawn]) -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    checks = {check["title"]: check for check in read(bank() / "checks.yaml")["checks"]}
    units = {unit["title"]: unit for unit in map(read, sorted((bank() / "units").glob("*.yaml")))}
    asked = set()
    for question in drawn:
        assert question.exhibit is not None
        ((title, text),) = question.exhibit.rows
        check = checks[title]
        unit = next(one for name, one in units.items() if question.stem[0].startswith(f"The unit: {name}."))

        def edge(written: Any, unit: Any = unit, check: Any = check) -> float:
            if not isinstance(written, dict):
                return float(written)
            number, _, name = str(unit["limits"][written["limit"]]).partition(" ")
            quantity = registry.Quantity(float(number), UNITS[name])
            return round(float(quantity.to(UNITS[check["unit"]]).magnitude), 6)

        match = re.search(r"[0-9][0-9,]*(\.[0-9]+)?", text)
        assert match is not None
        value = float(match[0].replace(",", ""))
        inside = [
            band["says"]
            for band in check["bands"]
            if edge(band.get("low", -1e9)) <= value < edge(band.get("high", 1e9))
        ]
        assert inside == [question.options[question.right].text]
        asked.add((title, inside[0]))
    assert len(asked) > 12


def test_a_wrong_answer_is_told_where_its_reading_would_lie(drawn: list[Drawn]) -> None:
    for question in drawn:
        assert question.exhibit is not None
        assert question.because.startswith(question.exhibit.rows[0][1])
        assert question.because.endswith(f": {question.options[question.right].text}.")
        for place, option in enumerate(question.options):
            told = r"You would read a value (below .+|at .+ or above|from .+ to below .+)\."
            assert (re.fullmatch(told, option.feedback) is None) == (place == question.right)


def test_faults_are_told_whole(stock: Stock) -> None:
    trade = stock.materials.trade
    fields, problems = fields_of("units: [bay-siphon]\nchecks: [porcelain, tank-level, spark-at-electrode]\n")
    KIND.load(fields, trade, stock.materials.safework)
    assert report(problems) == "\n".join(
        f"items.yaml:2: item 'x': the check '{name}' has no number to read, or not 3 to 5 bands"
        for name in ("porcelain", "spark-at-electrode", "tank-level")
    )
