"""The relation of a wrong repair to the right one: held against the heater itself, run with each fault alone."""

import pytest

from courseware.diagnosis.proof import prove_what_is_wrong
from courseware.heater.faults import FaultMode
from courseware.heater.readings import complaint_of
from courseware.heater.readings import draw as draw_reading
from courseware.heater.simulate import simulate
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.scenario import Scenario, draw_call
from courseware.quiz.misconceptions import RELATIONS
from courseware.quiz.relations import relation_of, sound_outcome
from tests.quiz.making import any_question


def faults_of(stock: Stock, unit_id: str, repair: str) -> list[FaultMode]:
    trade = stock.materials.trade
    unit = trade.units[unit_id]
    return [fault for fault in trade.faults.values() if fault.repair == repair and fault.applies_to(unit)]


def complaints(stock: Stock, unit_id: str, repair: str) -> set[str]:
    """Return what the customer can say of a fault that the repair mends, each grade run by itself."""
    trade = stock.materials.trade
    unit = trade.units[unit_id]
    cases = [((fault, grade),) for fault in faults_of(stock, unit_id, repair) for grade in fault.severities]
    return set(complaint_of(unit, trade.complaints, simulate(unit, cases)))


def found(stock: Stock, unit_id: str, repair: str, check_id: str) -> set[str]:
    """Return what a check can find of a fault that the repair mends."""
    trade = stock.materials.trade
    unit, check = trade.units[unit_id], trade.checks[check_id]
    cases = [((fault, grade),) for fault in faults_of(stock, unit_id, repair) for grade in fault.severities]
    run = simulate(unit, cases, check.changes)
    rng = open_chance("relations", unit_id, repair, check_id)
    return {draw_reading(unit, check, run, place, rng)[1] for place in range(len(cases)) for _ in range(8)}


def test_each_relation_is_what_its_name_says(stock: Stock) -> None:
    seen = set()
    for name in ("no-heat-call", "sparks-but-no-flame", "no-heat-call-practice"):
        body = stock.bank.templates[name].body
        assert isinstance(body, Scenario)
        for seed in range(12):
            call = draw_call(body, stock.materials, open_chance(name, str(seed)), any_question)
            if call is None:
                continue
            signatures = stock.materials.signatures(call.unit)
            for repair in sorted(call.proof.refuted)[:4]:
                relation = relation_of(signatures, call.complaint, call.evidence, call.proof, repair)
                seen.add(relation)
                brings = call.complaint in complaints(stock, call.unit, repair)
                if relation == "complaint-ignored":
                    assert not brings, (call, repair)
                elif relation == "cleared-part-changed":
                    assert any(
                        outcome == sound_outcome(signatures, check)
                        and outcome not in found(stock, call.unit, repair, check)
                        for check, outcome in call.evidence.items()
                    ), (call.evidence, repair)
                else:
                    assert brings
    assert {"complaint-ignored", "cleared-part-changed"} < seen <= set(RELATIONS)


def test_a_sound_unit_gives_the_sound_outcome(stock: Stock) -> None:
    for unit_id, unit in stock.materials.trade.units.items():
        signatures = stock.materials.signatures(unit_id)
        for check in signatures.checks:
            run = simulate(unit, [()], check.changes)
            rng = open_chance("sound", unit_id, check.id)
            drawn = [draw_reading(unit, check, run, 0, rng)[1] for _ in range(15)]
            assert sound_outcome(signatures, check.id) == max(set(drawn), key=drawn.count)


@pytest.mark.parametrize(
    ("complaint", "evidence", "repair", "relation"),
    [
        # No supply makes nothing happen; here the burner tried to start.
        ("no-flame-red-light", {"transformer-output": "none", "primary-voltage": "right"}, "restore-supply",
         "complaint-ignored"),
        # The wire feeds the transformer.
        ("no-flame-red-light", {"primary-voltage": "none", "line-voltage": "right"}, "replace-transformer",
         "feed-not-checked"),
    ],
)  # fmt: skip
def test_by_hand(complaint: str, evidence: dict[str, str], repair: str, relation: str, stock: Stock) -> None:
    signatures = stock.materials.signatures("bay-siphon")
    proof = prove_what_is_wrong(signatures, complaint, evidence)
    assert proof.holds
    assert relation_of(signatures, complaint, evidence, proof, repair) == relation
