"""Field cards as documents: the shipped one, and every fault of one, whole message by whole message."""

from collections.abc import Callable
from pathlib import Path

import pytest

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.heater.simulate import simulate, timeline
from courseware.jobs.course import KINDS
from courseware.publish.field_card import FIELD_CARD_KINDS, FieldCard, filled, lines_on, load_field_cards
from tests.publish.conftest import Shipped

GOOD = """\
format: courseware/field-card/1
id: pocket
title: Pocket card
sequence:
  - {state: proving, says: "Air proves.", only_on: {air_switch: fitted}}
  - {state: trial, says: "Flame within {control.trial s}."}
  - {state: run, says: "Fan on at {exchanger.fan_on degF}."}
readings: [line-voltage, suction-vacuum]
procedure: {id: lockout, until: proved}
rules: [hands-in-live-unit]
emergency:
  - {title: Fire, says: [Leave. Call 911.]}
blanks: [Desk]
origin: common practice, no source
"""

DIGIT = (
    "question_bank/card.yaml:6: field card, line of the sequence 2: 'says' has a digit that no setting of the unit "
    "stands for\n    try: write the setting with its unit of measure, such as {control.trial s}"
)
ORDER = (
    "question_bank/card.yaml:6: field card: on unit 'bay-metered' a healthy start does not come to 'trial' here; "
    "it goes: standby, proving, prepurge, trial, run"
)

Load = Callable[[str], tuple[tuple[FieldCard, ...], list[str]]]


@pytest.fixture
def load(tmp_path: Path, shipped: Shipped) -> Load:
    def run(text: str) -> tuple[tuple[FieldCard, ...], list[str]]:
        (tmp_path / "question_bank").mkdir(exist_ok=True)
        (tmp_path / "question_bank" / "card.yaml").write_text(text, encoding="utf-8")
        problems = Problems()
        documents = read_documents(tmp_path, FIELD_CARD_KINDS, problems)
        cards = load_field_cards(documents, shipped.teaching.trade, shipped.teaching.safework, problems)
        return cards, [str(problem) for problem in problems]

    return run


def test_a_card_is_read_and_filled_in_with_each_units_own_values(load: Load, shipped: Shipped) -> None:
    (card,), problems = load(GOOD)
    assert problems == []
    assert (card.id, card.readings, card.procedure, card.until) == (
        "pocket", ("line-voltage", "suction-vacuum"), "lockout", "proved",
    )  # fmt: skip
    metered, siphon = (shipped.teaching.trade.units[name] for name in ("bay-metered", "bay-siphon"))
    assert [filled(line.says, metered) for line in lines_on(card, metered)][:2] == ["Air proves.", "Flame within 15 s."]
    assert [filled(line.says, siphon) for line in lines_on(card, siphon)][:1] == ["Flame within 45 s."]


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("{control.trial s}", "15 s",
         DIGIT),
        ("{control.trial s}", "{control.trail s}",
         "question_bank/card.yaml:6: field card: on unit 'bay-metered' there is no setting 'control.trail'"),
        ("{control.trial s}", "{control.trial psig}",
         "question_bank/card.yaml:6: field card: 'control.trial' is not measured in 'psig'"),
        ("{control.trial s}", "{control.trial ticks}",
         "question_bank/card.yaml:6: field card: 'control.trial' is not measured in 'ticks'"),
        ("state: proving", "state: run",
         ORDER),
        ("only_on: {air_switch: fitted}", "only_on: {air_switch: brass}",
         "question_bank/card.yaml:5: field card, line of the sequence 1: "),
        ("line-voltage", "line-volts", "question_bank/card.yaml:8: field card: "),
        ("until: proved", "until: prove", "question_bank/card.yaml:9: field card, procedure: "),
        ("id: lockout", "id: lock-in", "question_bank/card.yaml:9: field card, procedure: "),
        ("hands-in-live-unit", "hands-off", "question_bank/card.yaml:10: field card: "),
        ("blanks: [Desk]\n", "", "question_bank/card.yaml:1: field card: "),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_line(load: Load, good: str, bad: str, told: str) -> None:
    assert good in GOOD
    problems = load(GOOD.replace(good, bad, 1))[1]
    assert problems
    assert problems[0].startswith(told), problems


def test_two_cards_of_one_name_are_a_fault(load: Load, tmp_path: Path) -> None:
    (tmp_path / "question_bank").mkdir()
    (tmp_path / "question_bank" / "again.yaml").write_text(GOOD, encoding="utf-8")
    (problem,) = load(GOOD)[1]
    assert "'pocket'" in problem
    assert "again.yaml" in problem


def test_the_shipped_card_tells_every_state_of_a_healthy_start_in_order(shipped: Shipped) -> None:
    """The states come from the simulated start, not from the loader: no state of it is left out of the card."""
    for card in shipped_cards(shipped):
        for unit in shipped.teaching.trade.units.values():
            passed = [state for _, state in timeline(simulate(unit, [()]))]
            assert [line.state for line in lines_on(card, unit) if line.state] == [
                state for state in passed if state in {line.state for line in card.sequence}
            ]
            assert set(passed) <= {line.state for line in lines_on(card, unit)}


def test_the_shipped_card_has_every_danger_of_the_bank(shipped: Shipped) -> None:
    dangers = {rule.id for rule in shipped.teaching.safework.rules.values() if rule.signal_word == "DANGER"}
    for card in shipped_cards(shipped):
        assert dangers - set(card.rules) == set(), "write them into question_bank/field_card.yaml too"


def shipped_cards(shipped: Shipped) -> tuple[FieldCard, ...]:
    problems = Problems()
    documents = read_documents(shipped.file.parents[1], KINDS, problems)
    cards = load_field_cards(documents, shipped.teaching.trade, shipped.teaching.safework, problems)
    problems.raise_if_any()
    assert cards
    return cards
