from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from courseware.records.certificates import Application, Course, NotCertifiedError, assess, grant, verify_code, withdraw
from courseware.records.codes import certificate_code
from courseware.records.errors import CodeError, EntryRefusedError
from courseware.records.ledger import append, head
from courseware.records.people import enroll, erase, find_person
from courseware.records.registers import Certificate, all_certificates, certificates_of, holders
from courseware.records.results import record_result
from courseware.records.signers import add_signer
from courseware.records.store import Store
from courseware.records.verify import verify
from tests.records import second_path
from tests.records.story import COURSE, FIRST, NINE, OFFICE, PROGRAM, SECOND, TODAY, answered, passed

LATER = NINE + timedelta(hours=1)
JO = "T-0002"
ASKED = Application(JO, PROGRAM, COURSE)


@pytest.fixture
def ready(store: Store) -> Iterator[Store]:
    """Give records with one person, who has passed under supervision."""
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    answered(store, JO, "7K3Q", lambda: NINE)
    record_result(store, passed("7K3Q"), FIRST, NINE)
    yield store
    assert verify(store).ok


def test_a_certificate_carries_all_that_is_printed(ready: Store) -> None:
    granted = grant(ready, ASKED, FIRST, NINE)
    assert granted == Certificate(
        code=certificate_code(6, find_person(ready, JO).ref, "ignition-service"),
        seq=6,
        person_id=JO,
        name="Jo Okafor",
        program="ignition-service",
        title="Ignition service",
        scope=("Finds what is wrong with the ignition from readings",),
        course_version="0.1",
        course_hash="5e" * 32,
        results=(5,),
        signoffs=(),
        quiz_evidence={},
        signoff_evidence={},
        signer=FIRST.id,
        signer_name="Ann Reyes",
        valid_from=date(2026, 11, 25),
        valid_until=date(2028, 11, 25),
        withdrawn_on=None,
        withdrawn_reason=None,
        erased_on=None,
    )
    assert certificates_of(ready, JO) == all_certificates(ready) == (granted,)


def test_the_first_day_is_the_offices(ready: Store) -> None:
    evening = datetime(2026, 11, 25, 21, 30, tzinfo=OFFICE)  # already the 26th in UTC
    assert grant(ready, ASKED, FIRST, evening).valid_from == date(2026, 11, 25)


def test_a_refusal_tells_every_reason_and_writes_nothing(ready: Store) -> None:
    asked = Application(JO, replace(PROGRAM, blueprints=("ignition", "combustion"), review_required=True), COURSE)
    before = ready.path.read_bytes()
    with pytest.raises(NotCertifiedError) as raised:
        grant(ready, asked, FIRST, LATER)
    assert str(raised.value) == (
        "Jo Okafor (T-0002) cannot get the certificate 'Ignition service'\n"
        "there is no result for the quiz 'combustion'\n"
        "    try: issue a form of it, and have it answered with a signer watching\n"
        "this program asks for a reviewed course, and this is not reviewed by a licensed technician (1): "
        "fault 'transformer-open'\n"
        "    try: have the company's licensed technician review them, and write 'reviewed: by, on' at each"
    )
    assert raised.value.decision == assess(ready, asked, LATER.date())
    assert ready.path.read_bytes() == before


def test_a_result_certifies_once(ready: Store) -> None:
    code = grant(ready, ASKED, FIRST, LATER).code
    assert [reason.code for reason in assess(ready, ASKED, TODAY).reasons] == ["used"]
    assert code in assess(ready, ASKED, TODAY).report()
    withdraw(ready, code, "granted in error", FIRST, LATER)
    assert not assess(ready, ASKED, TODAY).granted


def test_the_law_itself_lets_a_result_certify_once(ready: Store) -> None:
    granted = grant(ready, ASKED, FIRST, LATER)
    ref = find_person(ready, JO).ref
    body = {
        "code": certificate_code(7, ref, granted.program), "ref": ref, "program": granted.program, "title": "P",
        "scope": [], "course_version": "1", "course_hash": "00" * 32, "results": [5],
        "valid_from": "2026-11-25", "valid_until": "2027-11-25",
    }  # fmt: skip
    with pytest.raises(EntryRefusedError) as raised:
        append(ready, "certificate-granted", body, FIRST, LATER)
    assert str(raised.value) == (
        f"the certificate {granted.code} rests on the same results: 5\n"
        "    try: to renew a certificate, let the person take the quiz again on a new form"
    )


def test_a_renewal_is_a_new_certificate_on_a_new_result(ready: Store) -> None:
    first = grant(ready, ASKED, FIRST, LATER)
    answered(ready, JO, "9XA2", lambda: LATER)
    record_result(ready, passed("9XA2"), FIRST, LATER)
    second = grant(ready, ASKED, FIRST, LATER + timedelta(days=300))
    assert second.code != first.code
    assert [one.code for one in holders(ready, date(2027, 12, 1))] == [first.code, second.code]
    assert [one.code for one in holders(ready, date(2029, 1, 1))] == [second.code]
    assert holders(ready, date(2029, 1, 1), "another-program") == ()


def test_one_result_may_carry_certificates_of_two_programs(ready: Store) -> None:
    grant(ready, ASKED, FIRST, LATER)
    other = replace(PROGRAM, id="first-look", title="First look")
    assert grant(ready, Application(JO, other, COURSE), FIRST, LATER).results == (5,)


def test_nobody_certifies_themselves(ready: Store) -> None:
    add_signer(ready, JO, SECOND.public, FIRST, LATER)
    with pytest.raises(EntryRefusedError) as raised:
        grant(ready, ASKED, SECOND, LATER)
    assert raised.value.key == "signs-for-oneself"


def test_a_result_that_nobody_watched_does_not_certify(store: Store) -> None:
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    answered(store, JO, "7K3Q", lambda: NINE)
    record_result(store, passed("7K3Q", None), FIRST, NINE)
    assert [reason.code for reason in assess(store, ASKED, TODAY).reasons] == ["unsupervised"]


def test_a_replaced_result_does_not_certify(ready: Store) -> None:
    record_result(ready, replace(passed("7K3Q"), passed=False, replaces=5, reason="wrong sheet"), FIRST, LATER)
    assert [reason.code for reason in assess(ready, ASKED, TODAY).reasons] == ["not-passed"]


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"results": [4]}, "result-not-theirs"),
        ({"results": [99]}, "result-not-theirs"),
        ({"results": []}, "rests-on-nothing"),
        ({"results": [5, 5]}, "wrong-shape"),
        ({"code": "0000-0000-0000"}, "wrong-code"),
        ({"valid_from": "2026-11-20"}, "wrong-days"),
        ({"valid_until": "2026-11-24"}, "wrong-days"),
        ({"ref": "00" * 32}, "unknown-ref"),
    ],
)
def test_the_law_holds_whatever_a_program_says(ready: Store, change: dict[str, object], key: str) -> None:
    ref = find_person(ready, JO).ref
    body = {
        "code": certificate_code(6, ref, "p"), "ref": ref, "program": "p", "title": "P", "scope": [],
        "course_version": "1", "course_hash": "00" * 32, "results": [5],
        "valid_from": "2026-11-25", "valid_until": "2027-11-25",
    }  # fmt: skip
    with pytest.raises(EntryRefusedError) as raised:
        append(ready, "certificate-granted", {**body, **change}, FIRST, LATER)
    assert raised.value.key == key
    append(ready, "certificate-granted", body, FIRST, LATER)


def test_a_certificate_rests_on_passed_watched_standing_results(ready: Store) -> None:
    answered(ready, JO, "9XA2", lambda: LATER)
    failed = record_result(ready, replace(passed("9XA2"), passed=False), FIRST, LATER)
    answered(ready, JO, "M4C7", lambda: LATER)
    alone = record_result(ready, passed("M4C7", None), FIRST, LATER)
    record_result(ready, replace(passed("7K3Q"), replaces=5, reason="wrong sheet"), FIRST, LATER)
    ref = find_person(ready, JO).ref
    for seq, message in (
        (
            failed.seq,
            (
                f"the result in event {failed.seq} is not passed\n"
                "    try: let the person take the quiz again on a new form"
            ),
        ),
        (
            alone.seq,
            (
                f"the result in event {alone.seq} was not supervised\n"
                "    try: let the person take the quiz again on a new form, with a signer watching"
            ),
        ),
        (
            5,
            (
                "the result in event 5 was replaced by event 12\n"
                "    try: grant the certificate on event 12, if it is passed"
            ),
        ),
    ):
        body = {
            "code": certificate_code(head(ready).seq + 1, ref, "p"), "ref": ref, "program": "p", "title": "P",
            "scope": [],
            "course_version": "1", "course_hash": "00" * 32, "results": [seq],
            "valid_from": "2026-11-25", "valid_until": "2027-11-25",
        }  # fmt: skip
        with pytest.raises(EntryRefusedError) as raised:
            append(ready, "certificate-granted", body, FIRST, LATER)
        assert str(raised.value) == message


def test_a_withdrawal_is_made_once(ready: Store) -> None:
    code = grant(ready, ASKED, FIRST, LATER).code
    withdrawn = withdraw(ready, f" {code.lower()} ", " cheated ", FIRST, LATER)
    assert (withdrawn.withdrawn_on, withdrawn.withdrawn_reason) == (TODAY, "cheated")
    with pytest.raises(EntryRefusedError) as raised:
        withdraw(ready, code, "again", FIRST, LATER)
    assert str(raised.value) == (
        f"the certificate {code} was withdrawn on 2026-11-25\n    try: nothing: it is withdrawn"
    )  # fmt: skip
    unknown = certificate_code(7, "00" * 32, "p")
    with pytest.raises(EntryRefusedError) as raised:
        withdraw(ready, unknown, "x", FIRST, LATER)
    assert str(raised.value) == f"no certificate {unknown} was granted\n    try: check the code on the certificate"
    with pytest.raises(CodeError):
        withdraw(ready, "K7QM", "x", FIRST, LATER)


def said(store: Store, code: str, on: date) -> tuple[str, str]:
    answer = verify_code(store, code, on)
    return answer.status, answer.message.replace(code, "CODE")


def test_what_a_code_is_worth_on_a_day(ready: Store) -> None:
    code = grant(ready, ASKED, FIRST, LATER).code
    holder = "Jo Okafor, Ignition service, from 2026-11-25 to 2028-11-25"
    valid = f"CODE is valid on {{}}: {holder}\n    try: compare the name with the person's card"
    assert said(ready, code, TODAY) == ("valid", valid.format("2026-11-25"))
    assert said(ready, code, date(2028, 11, 25)) == ("valid", valid.format("2028-11-25"))
    assert said(ready, code, date(2028, 11, 26)) == (
        "expired",
        (
            f"CODE has expired: {holder}; asked for 2028-11-26\n"
            "    try: ask the company whether it was renewed: a renewed certificate has a new code"
        ),
    )
    assert said(ready, code, date(2026, 11, 24)) == (
        "not-yet",
        f"CODE is not valid yet on 2026-11-24: {holder}\n    try: ask again on 2026-11-25",
    )
    withdraw(ready, code, "answers were copied", FIRST, datetime(2027, 3, 1, tzinfo=UTC))
    assert said(ready, code, date(2027, 2, 28))[0] == "valid"  # it was, on that day
    assert said(ready, code, date(2027, 3, 1)) == (
        "withdrawn",
        (
            "CODE was withdrawn on 2027-03-01: Jo Okafor, Ignition service. Reason: answers were copied\n"
            "    try: do not rely on it; ask the company"
        ),
    )
    erase(ready, JO, FIRST, datetime(2027, 4, 1, tzinfo=UTC))
    assert said(ready, code, date(2027, 4, 1)) == (
        "erased",
        (
            "CODE was granted (Ignition service, from 2026-11-25 to 2028-11-25), but the holder's data were erased on "
            "2027-04-01, and it can be matched to nobody\n    try: do not rely on it; ask the company"
        ),
    )


def test_a_code_that_is_none(ready: Store) -> None:
    code = grant(ready, ASKED, FIRST, LATER).code
    unknown = certificate_code(7, "00" * 32, "p")
    assert said(ready, unknown, TODAY) == (
        "unknown",
        (
            "CODE is well formed, but these records have no such certificate\n"
            "    try: ask the company whose name is on the certificate, whose records may be others"
        ),
    )
    wrong = ("1" if code[0] != "1" else "2") + code[1:]
    assert said(ready, wrong, TODAY) == (
        "mistyped",
        (
            "'CODE' is mistyped: its check characters do not fit\n"
            "    try: compare it with the certificate, character by character"
        ),
    )
    assert verify_code(ready, wrong, TODAY).certificate is None


def test_after_an_erasure_no_day_has_a_holder(ready: Store) -> None:
    code = grant(ready, ASKED, FIRST, LATER).code
    erase(ready, JO, FIRST, datetime(2027, 4, 1, tzinfo=UTC))
    assert verify_code(ready, code, TODAY).status == "erased"


def test_the_course_is_bound_to_the_certificate(ready: Store) -> None:
    grant(ready, Application(JO, PROGRAM, Course("0.2", "77" * 32, ())), FIRST, LATER)
    (event,) = [one for one in second_path.events(ready.path) if one["kind"] == "certificate-granted"]
    assert (event["course_version"], event["course_hash"], event["results"]) == ("0.2", "77" * 32, [5])
