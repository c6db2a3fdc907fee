"""Forms, responses and results: once each, in order, supervised by somebody else."""

import hashlib
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.records.errors import EntryRefusedError
from courseware.records.forms import ReceivedResponse, issue_form, receive_response, void_form
from courseware.records.people import enroll
from courseware.records.registers import forms_out, results_of, voided
from courseware.records.results import Marks, percent, record_result
from courseware.records.shapes import PERCENT
from courseware.records.signers import add_signer
from courseware.records.store import Store
from courseware.records.verify import verify
from tests.records import second_path
from tests.records.story import FIRST, NINE, SECOND, answered, form, passed

LATER = NINE + timedelta(hours=1)
JO = "T-0002"


@pytest.fixture
def ready(store: Store) -> Iterator[Store]:
    """Give records with one person, whose answers to one form are in."""
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    answered(store, JO, "7K3Q", lambda: NINE)
    yield store
    assert verify(store).ok


def refusal(store: Store, marks: Marks, key: object = FIRST) -> str:
    with pytest.raises(EntryRefusedError) as raised:
        record_result(store, marks, SECOND if key is SECOND else FIRST, LATER)
    return str(raised.value)


def test_forms_are_recorded_by_their_hashes(ready: Store) -> None:
    row = second_path.stored(ready.path)["form"]["7K3Q"]
    assert row["form_sha256"] == hashlib.sha256(b"form 7K3Q").hexdigest()
    assert row["key_sha256"] == hashlib.sha256(b"sealed 7K3Q").hexdigest()
    assert row["response_sha256"] == hashlib.sha256(b"answers to 7K3Q").hexdigest()
    assert forms_out(ready) == ()


def test_a_form_goes_out_once(ready: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        issue_form(ready, "T-0001", form("7K3Q"), FIRST, LATER)
    assert str(raised.value) == (
        "the form 7K3Q was issued before\n"
        "    try: issue a form with a new id: each form goes to one person, once"
    )  # fmt: skip


def test_answers_come_in_once_and_only_to_a_form_that_went_out(ready: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        receive_response(ready, ReceivedResponse("7K3Q", b"better answers", "file"), FIRST, LATER)
    assert str(raised.value) == (
        "the answers to the form 7K3Q came in on 2026-11-25T14:00:00Z\n"
        "    try: nothing: the first answers count; for another try issue a new form"
    )
    with pytest.raises(EntryRefusedError) as raised:
        receive_response(ready, ReceivedResponse("7K30", b"answers", "file"), FIRST, LATER)
    assert str(raised.value) == (
        "no form 7K30 was issued\n    try: check the form id at the top of the quiz"
    )  # fmt: skip
    issue_form(ready, JO, form("9XA2"), FIRST, LATER)
    with pytest.raises(EntryRefusedError) as raised:
        receive_response(ready, ReceivedResponse("9XA2", b"answers", "fax"), FIRST, LATER)
    assert str(raised.value) == (
        "in an entry 'response-received', 'channel' is 'fax'; allowed is file, typed or paper\n"
        "    try: correct the value"
    )


def test_a_result_is_read_back(ready: Store) -> None:
    record_result(
        ready,
        Marks(
            "7K3Q", Fraction(2, 3), 0.8, passed=False, gates_broken=("fuel-safe",), objectives={"find": 1, "order": 0}
        ),
        FIRST,
        LATER,
    )
    (result,) = results_of(ready, JO)
    assert (result.score, result.cut, result.passed, result.gates) == (
        Decimal("66.67"),
        Decimal(80),
        False,
        ("fuel-safe",),
    )
    assert result.objectives == {"find": Decimal(100), "order": Decimal(0)}
    assert (result.supervised_by, result.supervisor_name, result.replaced_by) == (None, None, None)


def test_a_gate_broken_twice_is_recorded_once(ready: Store) -> None:
    record_result(ready, Marks("7K3Q", 0.9, 0.8, passed=False, gates_broken=("a", "b", "a")), FIRST, LATER)
    assert results_of(ready, JO)[0].gates == ("a", "b")


@pytest.mark.parametrize(
    ("told", "recorded"),
    [
        ("2026-11-25T14:03:07Z", "2026-11-25T14:03:07Z"),
        ("2026-11-25T09:03:07.123-05:00", "2026-11-25T14:03:07Z"),
        ("", ""),
        ("2026-11-25T09:03:07", ""),
        ("0001-01-01T00:00:00+05:00", ""),
        ("Jo Okafor was here", ""),
    ],
)
def test_of_a_trainees_clock_only_a_moment_is_recorded(ready: Store, told: str, recorded: str) -> None:
    issue_form(ready, JO, form("9XA2"), FIRST, LATER)
    receive_response(ready, ReceivedResponse("9XA2", b"answers", "file", told, told), FIRST, LATER)
    event = second_path.events(ready.path)[-1]
    assert (event["started"], event["finished"]) == (recorded, recorded)


def test_a_form_without_answers_has_no_result(ready: Store) -> None:
    issue_form(ready, JO, form("9XA2"), FIRST, LATER)
    assert refusal(ready, passed("9XA2")) == (
        "no answers to the form 9XA2 have come in\n    try: record the answers first"
    )


def test_a_wrong_result_is_replaced_and_both_stay(ready: Store) -> None:
    wrong = record_result(ready, passed("7K3Q"), FIRST, LATER)
    assert refusal(ready, passed("7K3Q")) == (
        f"the form 7K3Q has a result already, event {wrong.seq}\n"
        "    try: if that one is wrong, record this one as its replacement, with the reason"
    )
    assert refusal(ready, replace(passed("7K3Q"), replaces=wrong.seq)) == (
        f"event {wrong.seq}, the result of the form 7K3Q, cannot be replaced without a reason\n"
        "    try: say in a line why the first result was wrong, naming nobody"
    )
    assert refusal(ready, replace(passed("7K3Q"), replaces=2, reason="typed wrong")) == (
        f"the result of the form 7K3Q that stands is event {wrong.seq}, not 2\n    try: replace event {wrong.seq}"
    )
    right = record_result(ready, replace(passed("7K3Q"), replaces=wrong.seq, reason="typed wrong"), FIRST, LATER)
    assert [(one.seq, one.replaced_by) for one in results_of(ready, JO)] == [(wrong.seq, right.seq), (right.seq, None)]
    assert refusal(ready, replace(passed("7K3Q"), replaces=wrong.seq, reason="typed wrong")) == (
        f"the result of the form 7K3Q that stands is event {right.seq}, not {wrong.seq}\n"
        f"    try: replace event {right.seq}"
    )


def test_there_must_be_something_to_replace(ready: Store) -> None:
    assert refusal(ready, replace(passed("7K3Q"), replaces=4, reason="x")) == (
        "the form 7K3Q has no result 4 to replace\n    try: record it as a first result"
    )


def test_a_pass_is_a_pass(ready: Store) -> None:
    assert refusal(ready, Marks("7K3Q", 0.9, 0.8, passed=True, gates_broken=("fuel-safe", "dead-test"))) == (
        "a result cannot be passed with a safety gate broken: fuel-safe, dead-test\n    try: grade the answers again"
    )
    assert refusal(ready, Marks("7K3Q", 0.79, 0.8, passed=True)) == (
        "a result of 79 % cannot be passed where 80 % is needed\n    try: grade the answers again"
    )


def test_nobody_supervises_or_records_their_own_quiz(ready: Store) -> None:
    add_signer(ready, JO, SECOND.public, FIRST, LATER)
    assert refusal(ready, passed("7K3Q", SECOND.id)) == (
        "nobody supervises their own quiz\n"
        "    try: name the signer who watched, or record the result as unsupervised"
    )  # fmt: skip
    assert refusal(ready, passed("7K3Q"), SECOND) == (
        "a signer does not record their own results, sign-offs or certificates\n    try: let another signer do it"
    )


def test_a_supervisor_is_a_registered_signer(ready: Store) -> None:
    assert refusal(ready, passed("7K3Q", "ab" * 16)) == (
        f"the key {'ab' * 16} is not that of a registered signer\n"
        "    try: sign with a registered key, or let a present signer add this one first"
    )


@given(st.fractions(0, 1))
def test_percents_are_within_half_a_hundredth_and_well_formed(share: Fraction) -> None:
    text = percent(share)
    assert abs(Fraction(text) - share * 100) <= Fraction(1, 200)
    assert PERCENT.holds(text)


@pytest.mark.parametrize(
    ("share", "text"), [(0, "0"), (1, "100"), (0.875, "87.5"), (Fraction(1, 3), "33.33"), (0.1, "10")]
)
def test_percents(share: float | Fraction, text: str) -> None:
    assert percent(share) == text


@pytest.mark.parametrize("share", [-0.01, 1.01])
def test_what_is_no_share_is_our_mistake(share: float) -> None:
    with pytest.raises(ValueError, match=f"^{share} is not a share of one$"):
        percent(share)


def test_a_voided_form_is_out_no_more_and_takes_no_answers(ready: Store) -> None:
    issue_form(ready, JO, form("9XA2"), FIRST, LATER)
    void_form(ready, "9XA2", " a photo of it went round ", FIRST, LATER)
    assert forms_out(ready) == ()
    assert voided(ready, "9XA2") == (LATER.date(), "a photo of it went round")
    assert voided(ready, "7K3Q") is voided(ready, "7K30") is None
    told = (
        "the form 9XA2 was voided on 2026-11-25T15:00:00Z: a photo of it went round\n"
        "    try: answer the form that was issued in its place"
    )
    with pytest.raises(EntryRefusedError) as raised:
        receive_response(ready, ReceivedResponse("9XA2", b"answers", "file"), FIRST, LATER)
    assert str(raised.value) == told
    with pytest.raises(EntryRefusedError) as raised:
        void_form(ready, "9XA2", "again", FIRST, LATER)
    assert str(raised.value) == told
    assert refusal(ready, passed("9XA2")) == (
        "no answers to the form 9XA2 have come in\n    try: record the answers first"
    )


def test_only_a_form_that_is_out_is_voided_and_never_without_a_reason(ready: Store) -> None:
    issue_form(ready, JO, form("9XA2"), FIRST, LATER)
    for form_id, reason, message in (
        (
            "7K3Q",
            "leaked",
            (
                "the answers to the form 7K3Q came in on 2026-11-25T14:00:00Z\n"
                "    try: nothing: the first answers count; for another try issue a new form"
            ),
        ),
        ("7K30", "leaked", "no form 7K30 was issued\n    try: check the form id at the top of the quiz"),
        (
            "9XA2",
            " ",
            (
                "in an entry 'form-voided', 'reason' is ''; allowed is one line of text, at most 200 characters, "
                "with no space at either end\n    try: correct the value"
            ),
        ),
        (
            "9XA2",
            "Jo Okafor lost it",
            (
                "the text names T-0002, and what stands in the chain cannot be erased\n"
                "    try: say it without the name and the e-mail"
            ),
        ),
    ):
        with pytest.raises(EntryRefusedError) as raised:
            void_form(ready, form_id, reason, FIRST, LATER)
        assert str(raised.value) == message
