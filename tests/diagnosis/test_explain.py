"""Explanations as a trainee reads them."""

import math

import pytest

from courseware.diagnosis.explain import about_check, against, proof_in_words
from courseware.diagnosis.proof import prove_next_check, prove_what_is_wrong
from courseware.diagnosis.space import Premise
from courseware.diagnosis.wording import lowered, reading_words
from tests.diagnosis.arrays import BAD, GOOD, bench, certain, signatures

SHOWN = {"mirror": BAD, "gauge": GOOD, "lens": GOOD, "beaker": GOOD}


def test_readings_against_a_wrong_repair_stand_in_order_of_strength() -> None:
    found = against(bench(doubt=0.2), "clicks", SHOWN, "air")
    assert [(one.check, one.outcome) for one in found] == [("gauge", GOOD), ("beaker", GOOD), ("mirror", BAD)]
    assert found[0].likelihood_ratio == math.inf
    assert found[-1].likelihood_ratio == 4.0  # .8 seen, .2 expected
    assert found[0].sentence == (
        "Check gauge: gauge shows 0. If the repair were “Fix the air”, you would find: gauge shows 1."
    )


def test_the_value_read_is_named() -> None:
    found = against(bench(doubt=0.2), "clicks", SHOWN, "air", {"gauge": "11.5 psig"})
    assert found[0].sentence == (
        "Check gauge: 11.5 psig (gauge shows 0). If the repair were “Fix the air”, you would find: gauge shows 1."
    )


def test_a_complaint_that_the_repair_alone_would_not_bring_speaks_against_it() -> None:
    found = against(bench(), "clicks", {"mirror": BAD}, "soot")
    assert found[0].sentence == (
        "The customer says “It clicks”. If the repair were “Fix the soot”, you would hear: “It works”."
    )
    assert found[1].sentence == (
        "Check mirror: mirror shows 1. If the repair were “Fix the soot”, you would find: mirror shows 0."
    )


def test_only_faults_that_bring_the_complaint_are_supposed_of_a_repair() -> None:
    # One repair mends gap and lead, but a bad lead brings another complaint: its lamp reading is no alibi.
    model = signatures(
        [("air",), ("gap",), ("lead",)], [1, 1, 1], {"lamp": certain([1, 0, 1], 3)},
        mended_by={"air": "air", "gap": "electrode", "lead": "electrode"}, complaints=["clicks", "clicks", "smokes"],
    )  # fmt: skip
    assert [one.likelihood_ratio for one in against(model, "clicks", {"lamp": BAD}, "electrode")] == [math.inf]
    assert against(model, None, {"lamp": BAD}, "electrode")[0].likelihood_ratio == 2.0


def test_nothing_speaks_against_the_right_repair_or_an_equal_rival() -> None:
    assert against(bench(), "clicks", SHOWN, "spark") == ()
    assert against(bench(), "clicks", {"gauge": GOOD}, "pump") == ()


def test_a_proof_in_words() -> None:
    proof = prove_what_is_wrong(bench(), "clicks", SHOWN, Premise.ONE)
    assert proof_in_words(bench(), proof, {"gauge": "11.5 psig"}) == (
        "The customer says “It clicks”. Rules out “Fix the soot”.",
        "Check mirror: mirror shows 1. Rules out “Fix the air”, “Fix the pump”.",
        "Check gauge: 11.5 psig (gauge shows 0). By itself it rules out nothing more.",
        "Check lens: lens shows 0. By itself it rules out nothing more.",
        "Check beaker: beaker shows 0. By itself it rules out nothing more.",
    )


@pytest.mark.parametrize(
    ("check", "words"),
    [
        (
            "gauge",
            "Check gauge: for the 2 minutes it takes, no other check tells clearly more about which repair is needed.",
        ),
        (
            "lens",
            "Check lens: whichever of the repairs left is needed, you would find: lens shows 0. It tells nothing new.",
        ),
        (
            "mirror",
            "Check mirror: it helps, but it takes 10 minutes. Minute for minute, “Check gauge” tells 5 times as much.",
        ),
    ],
)
def test_why_a_check_is_or_is_not_the_next(check: str, words: str) -> None:
    assert about_check(bench(), "clicks", {}, prove_next_check(bench(), "clicks", {}), check) == words


def test_words_stay_as_they_are_where_they_start_with_an_abbreviation() -> None:
    assert reading_words(bench(), "gauge", GOOD) == "Check gauge: gauge shows 0"
    assert (
        reading_words(bench(), "gauge", "cannot", {"gauge": "gauge cannot be read"})
        == "Check gauge: gauge cannot be read"
    )
    assert lowered("CO in the room") == "CO in the room"
    assert lowered("Gap too wide") == "gap too wide"
