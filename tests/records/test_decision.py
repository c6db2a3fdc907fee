"""The decision, whole reason by whole reason."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from courseware.records.decision import Attempt, Seen, Shown, Standing, decide
from tests.records.story import PROGRAM

TODAY = date(2026, 11, 25)
TWO = replace(PROGRAM, blueprints=("ignition", "combustion"))
FIELD = replace(PROGRAM, signoffs=("lockout", "ignition-test"))
SEEN = (Seen(21, "lockout", date(2026, 11, 20)), Seen(14, "ignition-test", date(2026, 11, 1)))
GOOD = Attempt(8, "ignition", passed=True, gates=(), supervised=True, on=date(2026, 11, 20))
GOOD_TOO = replace(GOOD, seq=12, blueprint="combustion")


def test_nothing_against_it() -> None:
    decision = decide(TWO, Standing([GOOD_TOO, GOOD], ()), (), TODAY)
    assert decision.granted
    assert (decision.results, decision.valid_from, decision.valid_until) == ((8, 12), TODAY, date(2028, 11, 25))
    assert decision.report() == ""


@pytest.mark.parametrize(
    ("attempts", "code", "report"),
    [
        (
            [],
            "missing-result",
            (
                "there is no result for the quiz 'ignition'\n"
                "    try: issue a form of it, and have it answered with a signer watching"
            ),
        ),
        (
            [replace(GOOD, supervised=False)],
            "unsupervised",
            (
                "the quiz 'ignition' was answered, but nobody watched\n"
                "    try: issue a new form of it, and have it answered with a signer watching"
            ),
        ),
        (
            [replace(GOOD, passed=False)],
            "not-passed",
            (
                "the quiz 'ignition' is not passed (event 8)\n"
                "    try: go through the lessons named in the feedback, and issue a new form"
            ),
        ),
        (
            [replace(GOOD, passed=False, gates=("fuel-safe", "dead-test"))],
            "gate-broken",
            (
                "the answers to the quiz 'ignition' broke a safety rule (event 8): fuel-safe, dead-test\n"
                "    try: go through the safe-work lesson with the person, then issue a new form"
            ),
        ),
        (
            [replace(GOOD, on=date(2025, 11, 24))],
            "expired",
            (
                "the result for the quiz 'ignition' (event 8) was good until 2026-11-24: results count for 12 months\n"
                "    try: issue a new form of it"
            ),
        ),
        (
            [replace(GOOD, used_by="K7QM-2XPA-9D4T")],
            "used",
            (
                "the result for the quiz 'ignition' (event 8) already carries the certificate K7QM-2XPA-9D4T\n"
                "    try: issue a new form of it: a certificate is renewed on new results"
            ),
        ),
    ],
)
def test_each_reason(attempts: list[Attempt], code: str, report: str) -> None:
    decision = decide(PROGRAM, Standing(attempts, ()), (), TODAY)
    assert not decision.granted
    assert [reason.code for reason in decision.reasons] == [code]
    assert decision.report() == report


def test_all_reasons_are_told_in_the_programs_order() -> None:
    program = replace(TWO, review_required=True)
    attempts = [replace(GOOD, gates=("g",), passed=False, on=date(2020, 1, 1), used_by="K")]
    codes = [reason.code for reason in decide(program, Standing(attempts, ()), ["x"], TODAY).reasons]
    assert codes == ["gate-broken", "expired", "used", "missing-result", "not-reviewed"]


def test_the_review_is_asked_only_where_the_program_asks() -> None:
    unreviewed = ["rule 'g'", "fault 'b'", "fault 'a'", "fault 'f'", "fault 'd'", "fault 'e'"]
    assert decide(PROGRAM, Standing([GOOD], ()), unreviewed, TODAY).granted
    strict = replace(PROGRAM, review_required=True)
    assert decide(strict, Standing([GOOD], ()), (), TODAY).granted
    assert decide(strict, Standing([GOOD], ()), unreviewed, TODAY).report() == (
        "this program asks for a reviewed course, and this is not reviewed by a licensed technician (6): "
        "fault 'a', fault 'b', fault 'd', fault 'e', fault 'f', ...\n"
        "    try: have the company's licensed technician review them, and write 'reviewed: by, on' at each"
    )
    assert (
        decide(strict, Standing([GOOD], ()), ["x"], TODAY)
        .report()
        .endswith(
            "this is not reviewed by a licensed technician (1): x\n"
            "    try: have the company's licensed technician review them, and write 'reviewed: by, on' at each"
        )
    )


def test_the_last_day_of_a_result_still_counts() -> None:
    last = replace(GOOD, on=date(2025, 11, 25))
    assert decide(PROGRAM, Standing([last], ()), (), TODAY).granted
    assert not decide(PROGRAM, Standing([last], ()), (), TODAY + timedelta(days=1)).granted


def test_the_latest_supervised_result_counts() -> None:
    failed = replace(GOOD, seq=9, passed=False)
    at_home = replace(GOOD, seq=10, passed=False, supervised=False)
    again = replace(GOOD, seq=11)
    assert not decide(PROGRAM, Standing([GOOD, failed], ()), (), TODAY).granted
    assert decide(PROGRAM, Standing([GOOD, at_home], ()), (), TODAY).results == (8,)
    assert decide(PROGRAM, Standing([again, failed, GOOD, at_home], ()), (), TODAY).results == (11,)


def test_results_of_other_quizzes_do_not_count() -> None:
    assert [reason.code for reason in decide(PROGRAM, Standing([GOOD_TOO], ()), (), TODAY).reasons] == [
        "missing-result"
    ]


def test_a_program_may_ask_for_sign_offs() -> None:
    decision = decide(FIELD, Standing([GOOD], SEEN), (), TODAY)
    assert (decision.granted, decision.results, decision.signoffs) == (True, (8,), (14, 21))
    assert decide(PROGRAM, Standing([GOOD], SEEN), (), TODAY).signoffs == ()


def test_a_sign_off_that_is_missing_or_too_old_is_told() -> None:
    decision = decide(FIELD, Standing([GOOD], [replace(SEEN[0], on=date(2025, 11, 24))]), (), TODAY)
    assert [reason.code for reason in decision.reasons] == ["signoff-expired", "missing-signoff"]
    assert decision.report() == (
        "the sign-off of the procedure 'lockout' (event 21) was good until 2026-11-24: sign-offs count for 12 months\n"
        "    try: let the person carry it out again with a signer watching, and record the sign-off\n"
        "nobody has signed off the procedure 'ignition-test'\n"
        "    try: let the person carry it out on a unit with a signer watching, and record the sign-off"
    )


def test_the_last_day_of_a_sign_off_still_counts() -> None:
    last = [replace(one, on=date(2025, 11, 25)) for one in SEEN]
    assert decide(FIELD, Standing([GOOD], last), (), TODAY).granted
    tomorrow = [reason.code for reason in decide(FIELD, Standing([GOOD], last), (), TODAY + timedelta(days=1)).reasons]
    assert tomorrow == ["signoff-expired", "signoff-expired"]


def test_the_sign_off_of_the_latest_day_counts_whenever_it_was_recorded() -> None:
    older_told_later = replace(SEEN[0], seq=30, on=date(2026, 1, 2))
    same_day_again = replace(SEEN[0], seq=31)
    assert decide(FIELD, Standing([GOOD], [older_told_later, *SEEN]), (), TODAY).signoffs == (14, 21)
    assert decide(FIELD, Standing([GOOD], [same_day_again, *SEEN]), (), TODAY).signoffs == (14, 31)


# --- evidence ------------------------------------------------------------------------------------------

OPEN = replace(FIELD, quizzes_by_evidence=("ignition",), signoffs_by_evidence=("lockout",))
CARD = Shown(40, "program", FIELD.id, date(2026, 11, 24))
SAW = Shown(41, "procedure", "lockout", date(2026, 11, 24))


def test_evidence_stands_for_a_quiz_and_a_sign_off_where_the_program_says_so() -> None:
    decision = decide(OPEN, Standing((), SEEN[1:], (CARD, SAW)), (), TODAY)
    assert decision.granted
    assert (decision.results, decision.signoffs) == ((), (14,))
    assert (decision.quiz_evidence, decision.signoff_evidence) == ({"ignition": 40}, {"lockout": 41})


def test_by_default_it_stands_for_nothing_and_that_is_told() -> None:
    decision = decide(FIELD, Standing((), SEEN[1:], (CARD, SAW)), (), TODAY)
    assert (decision.quiz_evidence, decision.signoff_evidence) == ({}, {})
    advice = "if the company decides that evidence may stand there, name it in question_bank/program.yaml"
    assert decision.report() == (
        "there is no result for the quiz 'ignition'\n"
        "    try: issue a form of it, and have it answered with a signer watching\n"
        "there is evidence (event 40), but the program 'Ignition service' takes none in the place of "
        f"the quiz 'ignition'\n    try: {advice}\n"
        "nobody has signed off the procedure 'lockout'\n"
        "    try: let the person carry it out on a unit with a signer watching, and record the sign-off\n"
        "there is evidence (event 41), but the program 'Ignition service' takes none in the place of "
        f"the sign-off of the procedure 'lockout'\n    try: {advice}"
    )


def test_a_result_or_a_sign_off_that_will_do_comes_first() -> None:
    decision = decide(OPEN, Standing([GOOD], SEEN, (CARD, SAW)), (), TODAY)
    assert (decision.results, decision.signoffs) == ((8,), (14, 21))
    assert (decision.quiz_evidence, decision.signoff_evidence) == ({}, {})


@pytest.mark.parametrize(
    ("attempt", "counts"),
    [
        (replace(GOOD, on=date(2025, 1, 1)), True),
        (replace(GOOD, used_by="K7QM-2XPA-9D4T"), True),
        (replace(GOOD, supervised=False), True),
        (replace(GOOD, passed=False), False),
        (replace(GOOD, passed=False, gates=("dead-test",)), False),
    ],
)
def test_evidence_never_outweighs_a_quiz_that_was_failed(attempt: Attempt, *, counts: bool) -> None:
    decision = decide(OPEN, Standing([attempt], SEEN, (CARD,)), (), TODAY)
    assert decision.granted == counts
    assert decision.quiz_evidence == ({"ignition": 40} if counts else {})
    assert decision.results == (() if counts else (8,))


def test_evidence_on_another_program_or_procedure_is_none() -> None:
    others = (replace(CARD, name="other"), replace(CARD, topic="procedure"), replace(SAW, name="ignition-test"))
    decision = decide(OPEN, Standing((), SEEN[1:], others), (), TODAY)
    assert [reason.code for reason in decision.reasons] == ["missing-result", "missing-signoff"]


def test_evidence_that_is_too_old_or_used_is_told() -> None:
    old = replace(SAW, on=date(2025, 11, 24))
    used = replace(CARD, used_by="K7QM-2XPA-9D4T")
    decision = decide(OPEN, Standing((), SEEN[1:], (used, old)), (), TODAY)
    assert [reason.code for reason in decision.reasons] == [
        "missing-result", "evidence-used", "missing-signoff", "evidence-expired",
    ]  # fmt: skip
    assert [str(reason) for reason in decision.reasons][1::2] == [
        (
            "the evidence in the place of the quiz 'ignition' (event 40) already carries the certificate "
            "K7QM-2XPA-9D4T\n    try: a certificate is renewed on new results or new evidence"
        ),
        (
            "the evidence in the place of the sign-off of the procedure 'lockout' (event 41) was good until "
            "2026-11-24: evidence counts for 12 months from the day it was seen\n"
            "    try: look at the evidence again, and enter it anew"
        ),
    ]


def test_the_evidence_seen_last_counts_and_its_last_day_too() -> None:
    older = replace(CARD, seq=50, on=date(2025, 11, 25), used_by="K")
    assert decide(OPEN, Standing((), SEEN, (older, CARD)), (), TODAY).quiz_evidence == {"ignition": 40}
    last = replace(SAW, on=date(2025, 11, 25))
    assert decide(OPEN, Standing([GOOD], SEEN[1:], (last,)), (), TODAY).granted
    assert not decide(OPEN, Standing([GOOD], SEEN[1:], (last,)), (), TODAY + timedelta(days=1)).granted


def test_a_used_sign_off_by_evidence_may_stand_again() -> None:
    decision = decide(OPEN, Standing([GOOD], SEEN[1:], (replace(SAW, used_by="K7QM-2XPA-9D4T"),)), (), TODAY)
    assert decision.signoff_evidence == {"lockout": 41}
