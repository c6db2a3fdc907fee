"""Proofs by kind of question on a bench model whose answers are plain to see."""

import pytest

from courseware.diagnosis.proof import prove_next_check, prove_not_enough, prove_what_is_wrong
from courseware.diagnosis.ruled_out import RuledOut
from courseware.diagnosis.signatures import COMPLAINT
from courseware.diagnosis.space import Premise
from tests.diagnosis.arrays import BAD, GOOD, bench, signatures


def test_what_is_wrong_lists_what_each_reading_rules_out() -> None:
    proof = prove_what_is_wrong(bench(), "clicks", {"gauge": GOOD, "mirror": BAD, "beaker": GOOD}, Premise.ONE)
    assert proof.holds
    assert proof.key == ("spark",)
    assert proof.lines == (
        RuledOut(COMPLAINT, "clicks", ("soot",)),
        RuledOut("gauge", GOOD, ("air",)),
        RuledOut("mirror", BAD, ("pump",)),
        RuledOut("beaker", GOOD, ()),
    )
    assert proof.refuted == {"air", "pump", "soot"}
    assert proof.posterior == {"air": 0.0, "pump": 0.0, "soot": 0.0, "spark": 1.0}
    assert proof.why_not == ""


def test_a_second_fault_that_changes_nothing_shown_is_outside_the_question() -> None:
    proof = prove_what_is_wrong(bench(), "clicks", {"mirror": BAD, "gauge": GOOD, "beaker": GOOD})
    assert (proof.holds, proof.key, proof.premise) == (True, ("spark",), Premise.ONE_OR_TWO)
    assert proof.posterior["soot"] == pytest.approx(0.1 / 1.1)  # as likely as before: nobody looked at the lens


def test_a_second_fault_that_nobody_looked_for_does_not_spoil_a_bad_mirror() -> None:
    # The gauge was not read: air may be low too, but nothing shown calls for it.
    proof = prove_what_is_wrong(bench(), "clicks", {"mirror": BAD})
    assert (proof.holds, proof.key, proof.premise) == (True, ("spark",), Premise.ONE_OR_TWO)


def test_two_faults_that_both_show_are_both_the_key() -> None:
    proof = prove_what_is_wrong(bench(odds={"spark": 0.2}), "clicks", {"mirror": BAD, "gauge": BAD})
    assert (proof.holds, proof.key, proof.premise) == (True, ("air", "spark"), Premise.ONE_OR_TWO)


def test_the_question_says_one_where_only_one_can_be_proved() -> None:
    # Beaker dry, gauge good: the pump. The doubtful mirror shows no spark, which is a common fault: is it that too?
    # Pump .1 * .2, pump and spark .1 * .8, pump and soot .01 * .2: the spark stands at .08 / .102.
    model = bench(doubt=0.2, odds={"spark": 1.0})
    evidence = {"beaker": BAD, "gauge": GOOD, "mirror": BAD}
    assert prove_what_is_wrong(model, "clicks", evidence, Premise.ONE_OR_TWO).why_not == (
        "the readings may call for “Fix the spark” too (78 %), and do not settle it"
    )
    proof = prove_what_is_wrong(model, "clicks", evidence)
    assert (proof.holds, proof.key, proof.premise) == (True, ("pump",), Premise.ONE)


@pytest.mark.parametrize(
    ("complaint", "evidence", "premise", "why_not"),
    [
        (
            "clicks", {"gauge": GOOD}, Premise.ONE,
            "no repair is part of every explanation that stands; still standing: “Fix the pump”, “Fix the spark”",
        ),
        ("works", {"lens": GOOD}, Premise.ANY, "what is shown fits a unit that needs no repair"),
        (
            None, {"gauge": GOOD, "mirror": GOOD, "beaker": GOOD}, Premise.ONE,
            "what is shown would look the same without “Fix the soot”",
        ),
        (
            "clicks", {"mirror": BAD, "gauge": BAD}, Premise.ONE,
            (
                "these readings cannot stand together on this unit (one thing is wrong):"
                " Check mirror: mirror shows 1; Check gauge: gauge shows 1"
            ),
        ),
    ],
)  # fmt: skip
def test_why_there_is_no_proof(complaint: str, evidence: dict[str, str], premise: Premise, why_not: str) -> None:
    proof = prove_what_is_wrong(bench(), complaint, evidence, premise)
    assert (proof.holds, proof.key, proof.lines) == (False, (), ())
    assert proof.why_not == why_not


def test_a_reading_that_would_only_mislead_spoils_any_question() -> None:
    # The mirror is wrong once in fifty. The gauge is bad, so it is the air; but the mirror shows no spark.
    model = bench(doubt=0.02)
    why_not = (
        "this reading would only mislead, being less likely than 5 % by all that is shown: Check mirror: mirror shows 1"
    )
    for prove in (prove_what_is_wrong, prove_next_check, prove_not_enough):
        assert prove(model, "clicks", {"gauge": BAD, "mirror": BAD}, Premise.ONE).why_not == why_not


def test_a_key_below_95_percent_is_no_key() -> None:
    # Sixty rare faults of 0.1 % each stand below 0.02 one by one, and make 6 % together.
    names = [f"rare-{one}" for one in range(60)]
    model = signatures([("spark",), *((name,) for name in names)], [0.94, *[0.001] * 60], {"lamp": [[1.0, 0.0]] * 61})
    proof = prove_what_is_wrong(model, None, {"lamp": GOOD}, Premise.ONE)
    assert proof.why_not == "the readings leave “Fix the spark” at 94 %, and it takes 95 %"


def test_where_everything_is_unlikely_nothing_is_common() -> None:
    names = [f"rare-{one}" for one in range(60)]
    model = signatures([(name,) for name in names], [1.0] * 60, {"lamp": [[1.0, 0.0]] * 60})
    proof = prove_what_is_wrong(model, None, {"lamp": GOOD}, Premise.ONE)
    assert proof.why_not == "no repair is part of every explanation that stands; still standing: none"


def test_a_unit_that_nothing_can_befall_has_no_question() -> None:
    model = signatures([()], [1.0], {"lamp": [[1.0, 0.0]]}, complaints=["works"])
    assert (
        prove_what_is_wrong(model, "works", {}, Premise.ANY).why_not == "what is shown fits a unit that needs no repair"
    )
    for prove in (prove_what_is_wrong, prove_next_check, prove_not_enough):
        assert prove(model, "works", {}, Premise.ONE).why_not == (
            "the question bank knows no such fault of this unit (one thing is wrong)"
        )


def test_next_check_is_every_check_near_the_best_for_a_minute() -> None:
    proof = prove_next_check(bench(), "clicks", {})
    # Three rivals alike: the gauge splits 1 from 2, and takes 2 minutes; so does the lens nothing.
    assert (proof.holds, proof.key) == (True, ("gauge",))
    assert [gain.check for gain in proof.gains] == ["gauge", "mirror", "beaker", "lens"]
    assert proof.gains[0].bits == pytest.approx(0.918296, abs=5e-7)  # H(1/3)
    assert proof.lines == (RuledOut(COMPLAINT, "clicks", ("soot",)),)


def test_next_check_counts_checks_within_ten_percent_as_right() -> None:
    table = [[1.0, 0.0], [0.0, 1.0]]
    minutes = {"quick": 10.0, "near": 11.0, "far": 12.0}
    model = signatures([("air",), ("spark",)], [1, 1], dict.fromkeys(minutes, table), minutes=minutes)
    proof = prove_next_check(model, None, {})
    assert (proof.holds, proof.key) == (True, ("quick", "near"))


@pytest.mark.parametrize(
    ("evidence", "why_not"),
    [
        ({"gauge": BAD}, "the readings already settle it: “Fix the air”"),
        ({"gauge": GOOD, "mirror": GOOD}, "the readings already settle it: “Fix the pump”"),
        ({"gauge": GOOD, "lens": GOOD, "mirror": BAD, "beaker": BAD}, None),
    ],
)
def test_why_there_is_no_next_check(evidence: dict[str, str], why_not: str | None) -> None:
    proof = prove_next_check(bench(), "clicks", evidence)
    assert not proof.holds
    assert why_not is None or proof.why_not == why_not


def test_next_check_is_not_asked_where_no_check_tells_or_all_do() -> None:
    same, split = [[1.0, 0.0], [1.0, 0.0]], [[1.0, 0.0], [0.0, 1.0]]
    dull = signatures([("air",), ("spark",)], [1, 1], {"lamp": same, "lens": same})
    assert prove_next_check(dull, None, {}).why_not == (
        "no check that is left tells enough to ask for: the best gives 0.00 bit"
    )
    assert prove_next_check(dull, None, {"lamp": GOOD, "lens": GOOD}).why_not == (
        "no check that is left tells enough to ask for: the best gives 0.00 bit"
    )
    alike = signatures([("air",), ("spark",)], [1, 1], {"lamp": split, "lens": split})
    assert prove_next_check(alike, None, {}).why_not == "every check that is left is about as good as the best"


def test_not_enough_names_the_rivals_and_what_is_out() -> None:
    proof = prove_not_enough(bench(odds={"spark": 0.2}), "clicks", {"gauge": GOOD})
    assert (proof.holds, proof.key) == (True, ("spark", "pump"))
    assert proof.lines == (RuledOut(COMPLAINT, "clicks", ("soot",)), RuledOut("gauge", GOOD, ("air",)))


def test_not_enough_leaves_a_settled_repair_out_of_the_rivals() -> None:
    # The mirror settles the spark; the dry beaker is air or pump.
    proof = prove_not_enough(bench(), "clicks", {"mirror": BAD, "beaker": BAD}, Premise.ONE_OR_TWO)
    assert (proof.holds, set(proof.key)) == (True, {"air", "pump"})


@pytest.mark.parametrize(
    ("model_odds", "evidence", "why_not"),
    [
        ({}, {"mirror": BAD}, "fewer than two repairs are left to choose between: none"),
        ({"pump": 0.006}, {}, "“Fix the pump” is neither ruled out nor a fair rival (3 %)"),
        ({}, {"mirror": BAD, "gauge": BAD}, None),
    ],
)
def test_why_readings_are_enough_or_half_enough(
    model_odds: dict[str, float], evidence: dict[str, str], why_not: str | None
) -> None:
    proof = prove_not_enough(bench(odds=model_odds), "clicks", evidence)
    assert not proof.holds
    assert why_not is None or proof.why_not == why_not
