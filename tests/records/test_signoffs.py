"""Sign-offs: by a signer who watched, of a day that has come, for somebody else; and the certificates on them."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from courseware.records.certificates import Application, NotCertifiedError, grant
from courseware.records.codes import certificate_code
from courseware.records.errors import EntryRefusedError
from courseware.records.keys import SigningKey
from courseware.records.ledger import append
from courseware.records.people import enroll, erase, find_person
from courseware.records.registers import certificates_of
from courseware.records.results import record_result
from courseware.records.signers import add_signer, retire_signer
from courseware.records.signoffs import (
    FieldWork,
    SignOff,
    sign_off,
    signoffs_in,
    signoffs_of,
    withdraw_sign_off,
)
from courseware.records.store import Store
from courseware.records.verify import verify
from courseware.records.vouched import Withdrawal
from tests.records import second_path
from tests.records.story import (
    COURSE,
    FIRST,
    IN_THE_FIELD,
    NINE,
    SECOND,
    TODAY,
    answered,
    by_hand,
    change,
    field_work,
    passed,
)

LATER = NINE + timedelta(hours=1)
JO, KIM = "T-0002", "T-0003"


@pytest.fixture
def ready(store: Store) -> Iterator[Store]:
    """Give records with two people, of whom the first has passed under supervision."""
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    enroll(store, "Kim Abara", "kim@example.com", FIRST, NINE)
    answered(store, JO, "7K3Q", lambda: NINE)
    record_result(store, passed("7K3Q"), FIRST, NINE)
    yield store
    assert verify(store).ok


def refusal(store: Store, work: FieldWork, key: SigningKey = FIRST, person: str = JO) -> str:
    with pytest.raises(EntryRefusedError) as raised:
        sign_off(store, person, work, key, LATER)
    return str(raised.value)


def test_a_sign_off_is_read_back(ready: Store) -> None:
    work = replace(field_work(), remark=" slow, but right ")
    event = sign_off(ready, JO, work, FIRST, LATER)
    assert signoffs_of(ready, JO) == (SignOff(event.seq, replace(work, remark="slow, but right"), "Ann Reyes"),)
    assert signoffs_of(ready, KIM) == ()
    with pytest.raises(EntryRefusedError, match="nobody with the id 'T-0009' is enrolled"):
        signoffs_of(ready, "T-0009")


def test_the_day_it_was_done_may_be_past_but_not_to_come(ready: Store) -> None:
    sign_off(ready, JO, replace(field_work(), on=date(2026, 3, 2)), FIRST, LATER)
    sign_off(ready, JO, replace(field_work(), on=date(2026, 11, 26)), FIRST, LATER)  # east of UTC it is that day
    assert refusal(ready, replace(field_work(), on=date(2026, 11, 27))) == (
        "what was done or seen on 2026-11-27 cannot be entered at 2026-11-25T15:00:00Z: that day has not come\n"
        "    try: give the day on which it was done"
    )


def test_nobody_signs_off_their_own_work(ready: Store) -> None:
    add_signer(ready, JO, SECOND.public, FIRST, LATER)
    assert refusal(ready, field_work(watched_by=SECOND.id)) == (
        "nobody signs off their own work\n    try: name the signer who watched"
    )
    assert refusal(ready, field_work(), SECOND) == (
        "a signer does not record their own results, sign-offs or certificates\n    try: let another signer do it"
    )
    sign_off(ready, KIM, field_work(watched_by=SECOND.id), FIRST, LATER)
    assert [one.signer_name for one in signoffs_of(ready, KIM)] == ["Jo Okafor"]


def test_only_an_active_signer_watches(ready: Store) -> None:
    assert refusal(ready, field_work(watched_by="ab" * 16)) == (
        f"the key {'ab' * 16} is not that of a registered signer\n"
        "    try: sign with a registered key, or let a present signer add this one first"
    )
    add_signer(ready, KIM, SECOND.public, FIRST, NINE)
    retire_signer(ready, SECOND.id, "left", FIRST, NINE)
    assert refusal(ready, field_work(watched_by=SECOND.id)) == (
        f"the key {SECOND.id} was retired on 2026-11-25T14:00:00Z\n    try: let an active signer do it"
    )


def test_a_remark_names_nobody(ready: Store) -> None:
    assert refusal(ready, replace(field_work(), remark="Kim Abara held the mirror")) == (
        "the text names T-0003, and what stands in the chain cannot be erased\n"
        "    try: say it without the name and the e-mail"
    )


def test_a_sign_off_outlives_the_name_of_who_watched(ready: Store) -> None:
    add_signer(ready, KIM, SECOND.public, FIRST, NINE)
    sign_off(ready, JO, field_work(watched_by=SECOND.id), FIRST, NINE)
    retire_signer(ready, SECOND.id, "left", FIRST, NINE)
    erase(ready, KIM, FIRST, LATER)
    assert [(one.work.watched_by, one.signer_name) for one in signoffs_of(ready, JO)] == [(SECOND.id, None)]


def test_a_certificate_names_the_sign_offs_that_it_rests_on(ready: Store) -> None:
    asked = Application(JO, IN_THE_FIELD, COURSE)
    with pytest.raises(NotCertifiedError) as raised:
        grant(ready, asked, FIRST, LATER)
    assert str(raised.value) == (
        "Jo Okafor (T-0002) cannot get the certificate 'Field service'\n"
        "nobody has signed off the procedure 'ignition-test'\n"
        "    try: let the person carry it out on a unit with a signer watching, and record the sign-off"
    )
    sign_off(ready, KIM, field_work(), FIRST, LATER)  # another's does not help
    with pytest.raises(NotCertifiedError):
        grant(ready, asked, FIRST, LATER)
    seq = sign_off(ready, JO, field_work(), FIRST, LATER).seq
    assert grant(ready, asked, FIRST, LATER).signoffs == (seq,)
    assert certificates_of(ready, JO)[0].signoffs == (seq,)
    assert second_path.events(ready.path)[-1]["signoffs"] == [seq]


def test_an_old_sign_off_does_not_certify(ready: Store) -> None:
    sign_off(ready, JO, replace(field_work(), on=date(2025, 11, 24)), FIRST, LATER)
    with pytest.raises(NotCertifiedError, match="was good until 2026-11-24: sign-offs count for 12 months"):
        grant(ready, Application(JO, IN_THE_FIELD, COURSE), FIRST, LATER)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            [6],
            "event 6 is no sign-off of this person\n    try: grant the certificate on the person's own sign-offs",
        ),
        (
            [7],
            "event 7 is no sign-off of this person\n    try: grant the certificate on the person's own sign-offs",
        ),
        (
            [],
            (
                "in an entry 'certificate-granted', 'signoffs' is []; "
                "allowed is a list of event numbers, rising, at least one\n    try: correct the value"
            ),
        ),
    ],
)
def test_the_law_holds_a_certificate_to_the_persons_own_sign_offs(ready: Store, given: list[int], message: str) -> None:
    sign_off(ready, KIM, field_work(), FIRST, LATER)  # event 7; event 6 is Jo's result
    ref = find_person(ready, JO).ref
    body = {
        "code": certificate_code(8, ref, "p"), "ref": ref, "program": "p", "title": "P", "scope": [],
        "course_version": "1", "course_hash": "00" * 32, "results": [6], "signoffs": given,
        "valid_from": "2026-11-25", "valid_until": "2027-11-25",
    }  # fmt: skip
    with pytest.raises(EntryRefusedError) as raised:
        append(ready, "certificate-granted", body, FIRST, LATER)
    assert str(raised.value) == message


def test_a_day_is_the_offices(ready: Store) -> None:
    evening = datetime(2026, 11, 26, 2, 30, tzinfo=UTC)  # still the 25th where the office is
    sign_off(ready, JO, field_work(), FIRST, evening)
    assert [one.work.on for one in signoffs_of(ready, JO)] == [TODAY]


# --- units, and sign-offs taken back -------------------------------------------------------------------


def test_a_sign_off_may_say_which_unit_it_was(ready: Store) -> None:
    sign_off(ready, JO, replace(field_work(), serial=" no. 4471, south bay "), FIRST, LATER)
    sign_off(ready, JO, field_work(), FIRST, LATER)
    assert [one.work.serial for one in signoffs_of(ready, JO)] == ["no. 4471, south bay", ""]
    events = second_path.events(ready.path)
    assert events[-2]["serial"] == "no. 4471, south bay"
    assert "serial" not in events[-1]  # an entry without one is what it was before there were any
    assert refusal(ready, replace(field_work(), serial="kim abara's heater")) == (
        "the text names T-0003, and what stands in the chain cannot be erased\n"
        "    try: say it without the name and the e-mail"
    )


def test_a_wrong_sign_off_is_taken_back_once(ready: Store) -> None:
    seq = sign_off(ready, JO, field_work(), FIRST, NINE).seq
    withdraw_sign_off(ready, seq, " done by somebody else ", FIRST, LATER)
    (one,) = signoffs_of(ready, JO)
    assert one.withdrawn == Withdrawal("2026-11-25T15:00:00Z", "done by somebody else")
    assert signoffs_in(ready, [seq]) == (one,)
    for number, message in (
        (
            seq,
            (
                f"the sign-off in event {seq} was taken back on 2026-11-25T15:00:00Z\n"
                "    try: nothing: it counts no more; record a new sign-off if there is one"
            ),
        ),
        (1, "event 1 is no sign-off\n    try: look up the number of the entry in the person's file"),
    ):
        with pytest.raises(EntryRefusedError) as raised:
            withdraw_sign_off(ready, number, "again", FIRST, LATER)
        assert str(raised.value) == message


def test_taking_back_needs_a_reason_that_names_nobody_and_another_signer(ready: Store) -> None:
    seq = sign_off(ready, JO, field_work(), FIRST, NINE).seq
    add_signer(ready, JO, SECOND.public, FIRST, NINE)
    for reason, signer, key in (
        ("Kim Abara did it", FIRST, "names-person"),
        (" ", FIRST, "wrong-shape"),
        ("wrong day", SECOND, "signs-for-oneself"),
    ):
        with pytest.raises(EntryRefusedError) as raised:
            withdraw_sign_off(ready, seq, reason, signer, LATER)
        assert raised.value.key == key


def test_a_sign_off_taken_back_certifies_nobody_and_leaves_what_rests_on_it(ready: Store) -> None:
    seq = sign_off(ready, JO, field_work(), FIRST, LATER).seq
    granted = grant(ready, Application(JO, IN_THE_FIELD, COURSE), FIRST, LATER)
    withdraw_sign_off(ready, seq, "wrong day", FIRST, LATER)
    assert certificates_of(ready, JO) == (granted,)
    answered(ready, JO, "9XA2", lambda: LATER)
    record_result(ready, passed("9XA2"), FIRST, LATER)
    with pytest.raises(NotCertifiedError, match="nobody has signed off the procedure 'ignition-test'"):
        grant(ready, Application(JO, IN_THE_FIELD, COURSE), FIRST, LATER)
    ref = find_person(ready, JO).ref
    body = {
        "code": certificate_code(13, ref, "p"), "ref": ref, "program": "p", "title": "P", "scope": [],
        "course_version": "1", "course_hash": "00" * 32, "results": [12], "signoffs": [seq],
        "valid_from": "2026-11-25", "valid_until": "2027-11-25",
    }  # fmt: skip
    assert second_path.events(ready.path)[-1]["seq"] == 12
    with pytest.raises(EntryRefusedError) as raised:
        append(ready, "certificate-granted", body, FIRST, LATER)
    assert raised.value.key == "signoff-withdrawn-already"


@pytest.mark.parametrize("column", ["serial", "withdrawn_at", "withdrawn_reason"])
def test_a_sign_off_changed_by_hand_is_found(told: Store, column: str) -> None:
    with by_hand(told.path) as file:
        change(file, ("signoff", "seq", 28), column, "x")
    found = verify(told)
    assert (found.ok, found.first_bad) == (False, 29)
    assert f"in the table 'signoff', row '28', '{column}' is 'x'" in found.reason
