"""Evidence of experienced staff: who saw what when, what it may stand for, and how it is taken back."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest

from courseware.records.certificates import Application, NotCertifiedError, grant
from courseware.records.codes import certificate_code
from courseware.records.errors import EntryRefusedError
from courseware.records.evidence import Evidence, enter_evidence, evidence_in, evidence_of, withdraw_evidence
from courseware.records.keys import SigningKey
from courseware.records.ledger import append
from courseware.records.people import enroll, erase, find_person
from courseware.records.registers import certificates_of
from courseware.records.results import record_result
from courseware.records.signers import add_signer, retire_signer
from courseware.records.signoffs import sign_off
from courseware.records.store import Store
from courseware.records.verify import verify
from tests.records import second_path
from tests.records.story import (
    COURSE,
    EXPERIENCED,
    FIRST,
    NINE,
    SECOND,
    answered,
    by_hand,
    change,
    evidence,
    field_work,
    passed,
)

LATER = NINE + timedelta(hours=1)
JO, KIM = "T-0002", "T-0003"
ON_PROGRAM = evidence("program", EXPERIENCED.id)


@pytest.fixture
def ready(store: Store) -> Iterator[Store]:
    """Give records with two people."""
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    enroll(store, "Kim Abara", "kim@example.com", FIRST, NINE)
    yield store
    assert verify(store).ok


def refusal(store: Store, seen: Evidence, key: SigningKey = FIRST) -> str:
    with pytest.raises(EntryRefusedError) as raised:
        enter_evidence(store, JO, seen, key, LATER)
    return str(raised.value)


def test_evidence_is_read_back(ready: Store) -> None:
    seq = enter_evidence(ready, JO, replace(evidence(), evidence=" a card "), FIRST, LATER).seq
    (entry,) = evidence_of(ready, JO)
    assert (entry.seq, entry.seen, entry.signer_name, entry.withdrawn) == (
        seq, replace(evidence(), evidence="a card"), "Ann Reyes", None,
    )  # fmt: skip
    assert evidence_of(ready, KIM) == ()
    assert evidence_in(ready, [seq]) == (entry,)
    assert evidence_in(ready, [seq + 1]) == ()


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (
            {"evidence": "as Kim Abara says"},
            (
                "the text names T-0003, and what stands in the chain cannot be erased\n"
                "    try: say it without the name and the e-mail"
            ),
        ),
        (
            {"evidence": "  "},
            (
                "in an entry 'evidence-entered', 'evidence' is ''; "
                "allowed is one line of text, at most 200 characters, with no space at either end\n"
                "    try: correct the value"
            ),
        ),
        (
            {"topic": "quiz"},
            (
                "in an entry 'evidence-entered', 'topic' is 'quiz'; allowed is program or procedure\n"
                "    try: correct the value"
            ),
        ),
        (
            {"seen_on": date(2026, 11, 27)},
            (
                "what was done or seen on 2026-11-27 cannot be entered at 2026-11-25T15:00:00Z: that day has not come\n"
                "    try: give the day on which it was done"
            ),
        ),
        (
            {"seen_by": "ab" * 16},
            (
                f"the key {'ab' * 16} is not that of a registered signer\n"
                "    try: sign with a registered key, or let a present signer add this one first"
            ),
        ),
    ],
)
def test_what_is_no_evidence_is_refused(ready: Store, changed: dict[str, object], message: str) -> None:
    seen = {name: getattr(evidence(), name) for name in Evidence.__dataclass_fields__} | changed
    assert refusal(ready, Evidence(**seen)) == message


def test_nobody_vouches_for_themselves(ready: Store) -> None:
    add_signer(ready, JO, SECOND.public, FIRST, NINE)
    assert refusal(ready, replace(evidence(), seen_by=SECOND.id)) == (
        "nobody vouches for evidence of their own\n    try: name the signer who saw it"
    )
    assert refusal(ready, evidence(), SECOND) == (
        "a signer does not record their own results, sign-offs or certificates\n    try: let another signer do it"
    )


def test_evidence_outlives_the_name_of_who_saw_it(ready: Store) -> None:
    add_signer(ready, KIM, SECOND.public, FIRST, NINE)
    enter_evidence(ready, JO, replace(evidence(), seen_by=SECOND.id), FIRST, NINE)
    retire_signer(ready, SECOND.id, "left", FIRST, NINE)
    erase(ready, KIM, FIRST, LATER)
    assert [(one.seen.seen_by, one.signer_name) for one in evidence_of(ready, JO)] == [(SECOND.id, None)]


def test_it_is_taken_back_once_and_by_another(ready: Store) -> None:
    seq = enter_evidence(ready, JO, evidence(), FIRST, NINE).seq
    withdraw_evidence(ready, seq, "another's card", FIRST, LATER)
    (entry,) = evidence_of(ready, JO)
    assert entry.withdrawn is not None
    assert (entry.withdrawn.at, entry.withdrawn.reason) == ("2026-11-25T15:00:00Z", "another's card")
    with pytest.raises(EntryRefusedError) as raised:
        withdraw_evidence(ready, seq, "again", FIRST, LATER)
    assert str(raised.value) == (
        f"the evidence in event {seq} was taken back on 2026-11-25T15:00:00Z\n"
        "    try: nothing: it counts no more; enter new evidence if there is some"
    )
    with pytest.raises(EntryRefusedError) as raised:
        withdraw_evidence(ready, 1, "no", FIRST, LATER)
    assert str(raised.value) == (
        "event 1 is no evidence\n    try: look up the number of the entry in the person's file"
    )


def test_it_needs_a_reason_that_names_nobody(ready: Store) -> None:
    seq = enter_evidence(ready, JO, evidence(), FIRST, NINE).seq
    for reason, key in (("Kim Abara's card", "names-person"), ("", "wrong-shape")):
        with pytest.raises(EntryRefusedError) as raised:
            withdraw_evidence(ready, seq, reason, FIRST, LATER)
        assert raised.value.key == key


# --- certificates on it --------------------------------------------------------------------------------


def test_a_certificate_names_what_evidence_stands_for(ready: Store) -> None:
    asked = Application(JO, EXPERIENCED, COURSE)
    with pytest.raises(NotCertifiedError):
        grant(ready, asked, FIRST, LATER)
    quiz = enter_evidence(ready, JO, ON_PROGRAM, FIRST, LATER).seq
    field = enter_evidence(ready, JO, evidence(), FIRST, LATER).seq
    granted = grant(ready, asked, FIRST, LATER)
    assert (granted.results, granted.signoffs) == ((), ())
    assert (granted.quiz_evidence, granted.signoff_evidence) == ({"ignition": quiz}, {"ignition-test": field})
    event = second_path.events(ready.path)[-1]
    assert (event["quiz_evidence"], event["signoff_evidence"]) == ({"ignition": quiz}, {"ignition-test": field})
    assert second_path.tables(second_path.events(ready.path)) == second_path.stored(ready.path)


def test_evidence_for_a_quiz_certifies_once(ready: Store) -> None:
    asked = Application(JO, EXPERIENCED, COURSE)
    enter_evidence(ready, JO, ON_PROGRAM, FIRST, LATER)
    sign_off(ready, JO, field_work(), FIRST, LATER)
    code = grant(ready, asked, FIRST, LATER).code
    with pytest.raises(NotCertifiedError, match=f"already carries the certificate {code}"):
        grant(ready, asked, FIRST, LATER)
    enter_evidence(ready, JO, ON_PROGRAM, FIRST, LATER)
    grant(ready, asked, FIRST, LATER)
    assert len(certificates_of(ready, JO)) == 2


def test_evidence_taken_back_certifies_nobody(ready: Store) -> None:
    seq = enter_evidence(ready, JO, ON_PROGRAM, FIRST, LATER).seq
    sign_off(ready, JO, field_work(), FIRST, LATER)
    withdraw_evidence(ready, seq, "wrong card", FIRST, LATER)
    with pytest.raises(NotCertifiedError, match="there is no result for the quiz 'ignition'"):
        grant(ready, Application(JO, EXPERIENCED, COURSE), FIRST, LATER)


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"quiz_evidence": {"ignition": 4}}, "evidence-not-theirs"),  # another's
        ({"quiz_evidence": {"ignition": 6}}, "evidence-not-theirs"),  # on a procedure
        ({"quiz_evidence": {"ignition": 9}}, "evidence-not-theirs"),  # a result
        ({"quiz_evidence": {"ignition": 5}, "program": "p"}, "evidence-not-theirs"),  # on another program
        ({"signoff_evidence": {"lockout": 6}}, "evidence-not-theirs"),  # on another procedure
        ({"quiz_evidence": {"ignition": 10}}, "evidence-withdrawn-already"),
        ({"quiz_evidence": {}}, "wrong-shape"),
        ({"results": []}, "rests-on-nothing"),
        ({"quiz_evidence": {"ignition": "5"}}, "wrong-shape"),
    ],
)
def test_the_law_holds_a_certificate_to_the_persons_own_evidence(
    ready: Store, changed: dict[str, object], key: str
) -> None:
    enter_evidence(ready, KIM, ON_PROGRAM, FIRST, NINE)  # 4
    enter_evidence(ready, JO, ON_PROGRAM, FIRST, NINE)  # 5
    enter_evidence(ready, JO, evidence(), FIRST, NINE)  # 6
    answered(ready, JO, "7K3Q", lambda: NINE)  # 7, 8
    record_result(ready, passed("7K3Q"), FIRST, NINE)  # 9
    withdraw_evidence(ready, enter_evidence(ready, JO, ON_PROGRAM, FIRST, NINE).seq, "wrong", FIRST, NINE)  # 10, 11
    ref = find_person(ready, JO).ref
    body = {
        "ref": ref, "program": EXPERIENCED.id, "title": "P", "scope": [], "course_version": "1",
        "course_hash": "00" * 32, "results": [9], "valid_from": "2026-11-25", "valid_until": "2027-11-25", **changed,
    }  # fmt: skip
    body["code"] = certificate_code(12, ref, str(body["program"]))
    with pytest.raises(EntryRefusedError) as raised:
        append(ready, "certificate-granted", body, FIRST, LATER)
    assert raised.value.key == key


@pytest.mark.parametrize("column", ["ref", "topic", "name", "evidence", "seen_on", "seen_by", "withdrawn_at"])
def test_evidence_changed_by_hand_is_found(told: Store, column: str) -> None:
    with by_hand(told.path) as file:
        change(file, ("evidence", "seq", 31), column, "x")
    found = verify(told)
    assert (found.ok, found.first_bad) == (False, 31)
    assert f"in the table 'evidence', row '31', '{column}' is 'x'" in found.reason
