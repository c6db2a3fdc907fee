"""Next checks drawn from the model: each key found again by counting every case out, with no word of the diagnosis."""

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.choice import WrittenOption
from courseware.quiz.kinds.next_check import KIND, MARGIN, Asked, NextCheck, draw_asked
from tests.quiz.kinds import enumeration
from tests.quiz.kinds.enumeration import Counted, count_out
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report

CALLS = 40
SHORT_CUT = WrittenOption("Press reset and watch (1 min)", "It may fill the chamber.", "reset-without-looking", None)


@pytest.fixture(scope="module")
def body(stock: Stock) -> NextCheck:
    """Return a template that asks about everything."""
    trade = stock.materials.trade
    return NextCheck(tuple(trade.units), tuple(trade.faults), tuple(trade.checks), 0, 4, 4, ())


@pytest.fixture(scope="module")
def asked(stock: Stock, body: NextCheck) -> list[Asked]:
    draws = (draw_asked(body, stock.materials, open_chance("next", str(seed)), any_question) for seed in range(80))
    found = [one for one in draws if one is not None]
    assert len(found) >= CALLS
    return found[:CALLS]


@pytest.fixture(scope="module")
def counted(stock: Stock) -> dict[str, Counted]:
    trade = stock.materials.trade
    return {name: count_out(unit, trade) for name, unit in trade.units.items()}


def test_the_second_path_shares_only_content_and_heater_with_the_first() -> None:
    tree = ast.parse(Path(enumeration.__file__).read_text(encoding="utf-8"))
    names = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    names |= {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    ours = {name for name in names if name.startswith(("courseware", "tests"))}
    assert ours
    assert all(name.startswith(("courseware.content", "courseware.heater")) for name in ours)


def test_counting_every_case_out_finds_the_same_best_check(asked: list[Asked], counted: dict[str, Counted]) -> None:
    for one in asked:
        rates = counted[one.unit].rates(one.complaint, one.evidence)
        assert max(rates.values()) == pytest.approx(rates[one.right.check], rel=1e-6)
        for gain in one.wrong:
            assert rates[gain.check] == pytest.approx(gain.per_minute, rel=1e-6, abs=1e-9)
            assert rates[one.right.check] >= MARGIN * rates[gain.check] * (1 - 1e-9)


def test_there_is_something_left_to_find_out(asked: list[Asked], counted: dict[str, Counted]) -> None:
    for one in asked:
        bench = counted[one.unit]
        shares = bench.shares(bench.after(one.complaint, one.evidence))
        assert max(shares.values()) < 0.95
    assert len({one.right.check for one in asked}) >= 5
    assert {one.unit for one in asked} == set(counted)


@pytest.fixture(scope="module")
def questions(stock: Stock, body: NextCheck) -> list[Drawn]:
    made = replace(body, short_cuts=(SHORT_CUT,), fewest=1)
    draws = (KIND.draw(made, stock.materials, open_chance("drawn", str(seed)), any_question) for seed in range(40))
    found = [one for one in draws if one is not None]
    assert len(found) > 15
    return found


def test_every_wrong_check_is_told_its_minutes_and_what_it_would_show(questions: list[Drawn], stock: Stock) -> None:
    for question in questions:
        right, *wrong, unsafe = question.options
        assert right.feedback == ""
        title = right.text.rpartition(" (")[0]
        assert title in question.because
        for option in wrong:
            minutes = re.fullmatch(r".* \((\d+) min\)", option.text)
            assert minutes is not None
            assert f"takes {minutes[1]} minutes: " in option.feedback
            told_same = re.search(r"it would most likely read the same for all \d+ repairs left: \w", option.feedback)
            assert told_same or "would point to" in option.feedback
            times = re.search(r"tells ([\d.]+(?:e\+\d+)?) times as much\.$", option.feedback)
            assert times is None or (float(times[1]) >= MARGIN and f"“{title}”" in option.feedback)
            shows = "known-already" if told_same and times is None else "minutes-not-counted"
            assert option.belief == stock.materials.by_relation[shows]
        assert unsafe.gate is not None
        assert unsafe.feedback == "It may fill the chamber."


def test_a_question_shows_the_readings_it_stands_on(questions: list[Drawn], stock: Stock) -> None:
    titles = {check.title for check in stock.materials.trade.checks.values()}
    for question in questions:
        assert question.stem[-1].endswith("Which check tells you most for its minutes, and is safe to make now?")
        assert question.exhibit is not None
        shown = {label for label, _ in question.exhibit.rows}
        assert 1 <= len(shown) <= 4
        offered = {option.text.rpartition(" (")[0] for option in question.options[:-1]}
        assert offered <= titles - shown


def test_without_readings_the_question_says_so(stock: Stock, body: NextCheck) -> None:
    bare = replace(body, fewest=0, most=0)
    draws = (KIND.draw(bare, stock.materials, open_chance("bare", str(seed)), any_question) for seed in range(20))
    question = next(one for one in draws if one is not None)
    assert question.exhibit is None
    assert question.stem[2].endswith("No reading has been taken yet.")


def test_only_wanted_questions_are_drawn(stock: Stock, body: NextCheck) -> None:
    assert draw_asked(body, stock.materials, open_chance("x"), lambda _: False) is None


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of(
        "units: [bay]\nfaults: [spark-gone]\nchecks: [spark]\nshow: {from: 1, to: 0}\noptions: 2\n"
        "short_cuts:\n  - {text: Press reset., because: Oil., breaks: no-such-rule, why: x}\n"
    )
    KIND.load(fields, NO_TRADE, RULES)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:2: item 'x': 'faults' names the fault 'spark-gone', which does not exist
items.yaml:3: item 'x': 'checks' names the check 'spark', which does not exist
items.yaml:3: item 'x': 1 checks cannot give 0 readings and 2 checks to choose from
items.yaml:4: item 'x', show: 'to' is 0
    allowed: from 1 to 6
items.yaml:5: item 'x': 'options' is 2
    allowed: from 3 to 5
items.yaml:7: item 'x', short cut 1: 'breaks' names the rule 'no-such-rule', which does not exist
    allowed: air, lock, meter, oil, spark
items.yaml:7: item 'x', short cut 1: unknown key 'why'
    allowed: because, breaks, misconception, text"""
    )
