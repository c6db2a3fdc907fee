"""The procedures that ship, on the units that ship, with every fault that ships."""

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.heater.load import HEATER_KINDS, Trade, load_trade
from courseware.safework.check import procedure_problems
from courseware.safework.load import SAFEWORK_KINDS, load_safework
from courseware.safework.model import SafeWork
from courseware.safework.prove import prove

Shipped = tuple[Trade, SafeWork]


@pytest.fixture(scope="module")
def shipped() -> Shipped:
    problems, other_kinds = Problems(), Problems()
    documents = read_documents(shipped_course(), (*HEATER_KINDS, *SAFEWORK_KINDS), other_kinds)
    trade = load_trade(documents, problems)
    safework = load_safework(documents, trade, problems)
    problems.raise_if_any()
    return trade, safework


def test_every_procedure_runs_on_every_unit(shipped: Shipped) -> None:
    trade, safework = shipped
    problems = Problems()
    procedure_problems(safework, trade, problems)
    assert list(problems) == []
    assert len(trade.units) >= 2
    assert {"lockout", "ignition-test", "spark-isolation", "flame-sensor-test"} <= safework.procedures.keys()


@pytest.mark.parametrize("procedure_id", ["ignition-test", "spark-isolation", "flame-sensor-test"])
def test_no_fault_makes_an_allowed_order_break_a_rule(shipped: Shipped, procedure_id: str) -> None:
    # With a fault some step may not come out, and the work stops there; but nobody has been put in danger.
    trade, safework = shipped
    tried = 0
    for unit in trade.units.values():
        for fault in trade.faults.values():
            if fault.applies_to(unit):
                for severity in {fault.severities[0], fault.severities[-1]}:
                    breach = prove(
                        safework, trade, unit, safework.procedures[procedure_id], ((fault, severity),)
                    ).breach
                    assert breach is None or breach.rule is None, (unit.id, fault.id, severity)
                    tried += 1
    assert tried > 30


def test_every_piece_names_its_origin(shipped: Shipped) -> None:
    trade, safework = shipped
    for provenance in (
        *trade.job.provenance, *safework.provenance, *(rule.provenance for rule in safework.rules.values()),
        *(procedure.provenance for procedure in safework.procedures.values()),
    ):  # fmt: skip
        assert provenance.origin
        assert provenance.status() == "not reviewed by a licensed technician"


@pytest.mark.parametrize("unit_id", ["bay-siphon", "bay-metered"])
def test_a_flue_that_spills_into_the_room_is_found_in_the_full_start(shipped: Shipped, unit_id: str) -> None:
    # No step looks at the flue. What the simulated start brings into the room keeps the heater from being handed back.
    trade, safework = shipped
    case = ((trade.faults["flue-blocked"], 0.72),)
    breach = prove(safework, trade, trade.units[unit_id], safework.procedures["spark-isolation"], case).breach
    assert breach is not None
    assert (breach.rule, breach.step_id) == (None, "full-start")
    assert breach.reason == (
        "'Watch one full normal start, from the call for heat to a steady flame, and read the carbon monoxide in the "
        "room' cannot be done here, or does not come out as it must. "
        "More than 9 ppm of carbon monoxide comes into the room: wanted no, found yes."
    )
