"""States of the job: what follows from them on each unit, and what an author of them is told."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from textwrap import dedent

import pytest

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.heater.job import arrangement, check_job, consequences, load_job
from courseware.heater.load import Trade
from courseware.heater.simulate import Case, simulate
from courseware.heater.unit import Unit

State = Mapping[str, str]


def fact(trade: Trade, unit: Unit, name: str, state: State, case: Case = ()) -> str:
    return consequences(trade.job, unit, [state], case)[0][name]


class TestWhatFollows:
    """Common practice, no source: the words of the trade about fuel, spark and simulated flame."""

    def test_a_sound_unit_starts_and_burns(self, trade: Trade, unit: Unit) -> None:
        facts = consequences(trade.job, unit, [{}])[0]
        for name in ("line-live", "start-possible", "spark-can-fire", "oil-can-flow", "flame-stands"):
            assert facts[name] == "yes", name

    @pytest.mark.parametrize("power", ["off", "locked"])
    def test_without_power_nothing_happens(self, trade: Trade, unit: Unit, power: str) -> None:
        assert set(consequences(trade.job, unit, [{"power": power}])[0].values()) == {"no"}

    @pytest.mark.parametrize("state", [{"air-regulator": "at-zero"}, {"air-line": "off"}])
    def test_siphon_no_air_no_oil_and_still_a_spark(self, trade: Trade, siphon: Unit, state: State) -> None:
        assert fact(trade, siphon, "oil-can-flow", state) == "no"
        assert fact(trade, siphon, "spark-can-fire", state) == "yes"

    def test_metered_oil_flows_with_the_air_off(self, trade: Trade, metered: Unit) -> None:
        # the bridge stands in for the air that the switch wants to see
        state = {"air-line": "off", "air-switch-lead": "on"}
        assert fact(trade, metered, "oil-can-flow", state) == "yes"

    @pytest.mark.parametrize("state", [{"oil-valve": "shut"}, {"pump": "unplugged"}, {"oil-solenoid": "unplugged"}])
    def test_metered_oil_stops_at_valve_pump_or_solenoid(self, trade: Trade, metered: Unit, state: State) -> None:
        assert fact(trade, metered, "oil-can-flow", state) == "no"
        assert fact(trade, metered, "spark-can-fire", state) == "yes"

    def test_a_leaking_solenoid_lets_oil_past_until_valve_and_pump_stop_it(self, trade: Trade, metered: Unit) -> None:
        leaks = next(
            one for one in trade.faults.values()
            if any((change.part, change.setting) == ("oil_solenoid", "leak") for change in one.changes)
        )  # fmt: skip
        for severity in leaks.severities:
            case: Case = ((leaks, severity),)
            assert fact(trade, metered, "oil-can-flow", {"oil-solenoid": "unplugged"}, case) == "yes"
            assert fact(trade, metered, "oil-can-flow", {"pump": "unplugged"}, case) == "no"
            assert fact(trade, metered, "oil-can-flow", {"oil-valve": "shut"}, case) == "no"

    def test_the_air_switch_stops_the_sequence_before_the_spark(self, trade: Trade, metered: Unit) -> None:
        assert fact(trade, metered, "start-possible", {"air-line": "off"}) == "no"
        assert fact(trade, metered, "spark-can-fire", {"air-line": "off"}) == "no"
        assert fact(trade, metered, "start-possible", {"air-line": "off", "air-switch-lead": "on"}) == "yes"

    def test_simulated_flame_holds_an_intermittent_spark_and_stops_an_interrupted_one(
        self, trade: Trade, siphon: Unit, metered: Unit
    ) -> None:
        safe = {"air-regulator": "at-zero", "oil-valve": "shut"}
        for unit, without, simulated in ((siphon, "no", "yes"), (metered, "no", "no")):
            dry = safe if unit is siphon else {"oil-valve": "shut"}
            assert fact(trade, unit, "ignition-held", dry) == without  # the trial runs out
            assert fact(trade, unit, "ignition-held", {**dry, "flame-lead": "on"}) == simulated

    def test_a_lead_whose_switch_is_open_changes_nothing(self, trade: Trade, unit: Unit) -> None:
        assert fact(trade, unit, "start-possible", {"flame-lead": "fitted"}) == "yes"

    def test_light_before_the_trial_refuses_the_start(self, trade: Trade, unit: Unit) -> None:
        parts = tuple(
            replace(part, settings={**part.settings, "stray": 1.0}) if part.id == "sensor" else part
            for part in unit.parts
        )
        assert fact(trade, replace(unit, parts=parts), "start-possible", {}) == "no"


def test_many_states_at_once_are_the_same_as_one_by_one(trade: Trade, unit: Unit) -> None:
    states: list[State] = [
        {}, {"power": "locked"}, {"oil-valve": "shut"}, {"oil-valve": "shut", "flame-lead": "on"}, {"cover": "open"},
        {"air-line": "off"}, {"power": "locked", "cover": "open"}, {"oil-solenoid": "unplugged"},
    ]  # fmt: skip
    batched = consequences(trade.job, unit, states)
    assert [dict(one) for one in batched] == [run_by_hand(trade, unit, state) for state in states]


def run_by_hand(trade: Trade, unit: Unit, state: State) -> dict[str, str]:
    """The second way: the values put into the unit's own settings, and one run looked through."""
    put = {(change.part, change.setting): change.at_worst for change in arrangement(trade.job, unit, state)}
    parts = tuple(
        replace(part, settings={name: put.get((part.id, name), value) for name, value in part.settings.items()})
        for part in unit.parts
    )
    run = simulate(replace(unit, parts=parts), [()])
    found = {}
    for one in trade.job.derived.values():
        values = [float(value) for value in run.signals[one.signal][:, 0]]
        high = any(value > one.above for value in values) if one.when == "ever" else values[-1] > one.above
        found[one.id] = "yes" if high else "no"
    return found


def test_no_states_no_simulation(trade: Trade, unit: Unit) -> None:
    assert consequences(trade.job, unit, []) == ()


def test_a_change_of_what_the_unit_lacks_is_passed_over(trade: Trade, siphon: Unit) -> None:
    assert arrangement(trade.job, siphon, {"pump": "unplugged", "air-switch-lead": "on"}) == ()


JOB = """\
format: courseware/job/1
origin: made for the tests
variables:
  - id: power
    title: Disconnect
    values: [on, off]
    start: on
    changes:
      off: [{part: disconnect, setting: closed, to: 0}]
derived:
  - {id: line-live, title: Line live, signal: control.line, above: 1}
"""
FAULTS = {
    "a value that is none": (
        "      off: [{", "      of: [{",
        """\
        question_bank/job.yaml:9: variable 'power', changes: 'changes' names the value 'of', which is not one of its values
            allowed: off, on
            try: did you mean 'off'?
        """,  # noqa: E501 - a message as it is shown
    ),
    "a start that is none": (
        "start: on", "start: onn",
        """\
        question_bank/job.yaml:7: variable 'power': 'start' is 'onn'
            allowed: off, on
            try: did you mean 'on'?
        """,
    ),
    "changes that are no list": (
        "off: [{part: disconnect, setting: closed, to: 0}]", "off: {part: disconnect}",
        """\
        question_bank/job.yaml:9: variable 'power', changes: 'off' is a mapping (key: value lines)
            allowed: a list
        """,
    ),
    "an id twice": (
        "id: line-live", "id: power",
        """\
        question_bank/job.yaml:11: state 'power': the id 'power' is used twice; first at question_bank/job.yaml:4
            try: give one of the two another id
        """,
    ),
    "a moment that is none": (
        "above: 1", "above: 1, when: never",
        """\
        question_bank/job.yaml:11: fact 'line-live': 'when' is 'never'
            allowed: end, ever
            try: did you mean 'ever'?
        """,
    ),
    "a setting that no unit has": (
        "setting: closed", "setting: close",
        """\
        question_bank/job.yaml:4: variable 'power': no unit has the setting 'disconnect.close'
            allowed: disconnect.bridged, disconnect.closed
            try: did you mean 'disconnect.closed'?
        """,
    ),
    "a signal that no unit has": (
        "signal: control.line", "signal: control.lime",
        """\
        question_bank/job.yaml:11: fact 'line-live': no unit has the signal 'control.lime'
            allowed: control.ignition, control.light, control.line, control.low_volts, \
control.motor, control.refused, control.state, control.valve
            try: did you mean 'control.line'?
        """,
    ),
    "a feature that no unit has": (
        "    start: on\n", "    start: on\n    only_on: {delivry: siphon}\n",
        """\
        question_bank/job.yaml:4: variable 'power': no unit has the feature 'delivry'
            allowed: air_source, air_switch, delivery, igniter, ignition, oil_pump
            try: did you mean 'delivery'?
        """,
    ),
    "a feature value that no unit has": (
        "    start: on\n", "    start: on\n    only_on: {delivery: gravity}\n",
        """\
        question_bank/job.yaml:4: variable 'power': no unit has 'delivery: gravity'
            allowed: metered, siphon
        """,
    ),
}  # fmt: skip


def report(folder: Path, text: str, units: Mapping[str, Unit]) -> str:
    (folder / "question_bank").mkdir()
    (folder / "question_bank" / "job.yaml").write_text(text, encoding="utf-8")
    problems = Problems()
    check_job(load_job(read_documents(folder, ("job",), problems), problems), units, problems)
    return "".join(f"{problem}\n" for problem in problems)


def test_a_sound_job_has_no_problem(tmp_path: Path, trade: Trade) -> None:
    assert report(tmp_path, JOB, trade.units) == ""


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_of_the_author_gives_the_whole_message(tmp_path: Path, trade: Trade, name: str) -> None:
    old, new, message = FAULTS[name]
    assert JOB.count(old) == 1
    assert report(tmp_path, JOB.replace(old, new), trade.units) == dedent(message)
