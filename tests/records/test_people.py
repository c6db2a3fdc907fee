import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courseware.records.certificates import Application, assess, grant
from courseware.records.errors import EntryRefusedError
from courseware.records.forms import issue_form
from courseware.records.ledger import append, head
from courseware.records.people import OnePerson, correct, duplicates_of, enroll, erase, find_person, merge, people
from courseware.records.registers import all_certificates, certificates_of, forms_out, results_of
from courseware.records.results import record_result
from courseware.records.signers import add_signer, retire_signer, signers
from courseware.records.signoffs import sign_off, signoffs_of
from courseware.records.store import Store, open_store
from courseware.records.verify import verify
from tests.records import second_path
from tests.records.story import (
    COURSE,
    FIRST,
    LAST,
    NINE,
    PROGRAM,
    SECOND,
    STRANGER,
    answered,
    by_hand,
    change,
    field_work,
    form,
    passed,
)

LATER = NINE + timedelta(hours=1)


def refused(message: str, work: Callable[[], object], store: Store) -> None:
    """Hold the whole message, and that nothing was written."""
    before = store.path.read_bytes()
    with pytest.raises(EntryRefusedError, match=f"^{re.escape(message)}$"):
        work()
    assert store.path.read_bytes() == before


def test_people_are_numbered_and_listed(store: Store) -> None:
    jo = enroll(store, " Jo  Okafor", "Jo@Example.com ", FIRST, NINE)
    sam = enroll(store, "Sam Roe", "sam@example.com", FIRST, NINE)
    assert [(person.id, person.name, person.email) for person in people(store)] == [
        ("T-0001", "Ann Reyes", None),
        ("T-0002", "Jo Okafor", "jo@example.com"),
        ("T-0003", "Sam Roe", "sam@example.com"),
    ]
    assert people(store)[1:] == (jo, sam)
    assert find_person(store, " t-0002 ") == jo


def test_two_people_cannot_have_one_email(store: Store) -> None:
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    sam = enroll(store, "Sam Roe", "sam@example.com", FIRST, NINE)
    message = (
        "jo@example.com belongs to T-0002, Jo Okafor, who is enrolled already\n"
        "    try: use T-0002; or give this person's own address"
    )  # fmt: skip
    refused(message, lambda: enroll(store, "Joe Okafor", " JO@example.com", FIRST, NINE), store)
    refused(message, lambda: correct(store, replace(sam, email="jo@example.com"), FIRST, NINE), store)


def test_one_name_may_belong_to_two_people(store: Store) -> None:
    enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    assert enroll(store, "Jo Okafor", "jo.2@example.com", FIRST, NINE).id == "T-0003"


def test_a_correction_is_recorded_and_its_content_is_not(store: Store) -> None:
    jo = enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    right = correct(store, replace(jo, name="Jo  Okafor-Lund", email="JO@lund.example"), FIRST, NINE)
    assert (right.name, right.email, right.ref) == ("Jo Okafor-Lund", "jo@lund.example", jo.ref)
    assert find_person(store, jo.id) == right
    assert verify(store).ok
    assert head(store).seq == 3


def test_a_name_is_corrected_without_an_email(store: Store) -> None:
    right = correct(store, replace(find_person(store, "T-0001"), name="Ann Reyes-Holt"), FIRST, NINE)
    assert (right.name, right.email) == ("Ann Reyes-Holt", None)
    assert verify(store).ok


def test_the_first_signer_gets_an_email(store: Store) -> None:
    ann = find_person(store, "T-0001")
    correct(store, replace(ann, email="ann@example.com"), FIRST, NINE)
    assert find_person(store, "T-0001").email == "ann@example.com"
    assert verify(store).ok


def test_nobody_of_that_id(told: Store) -> None:
    refused(
        "nobody with the id 'T-0099' is enrolled; there are: T-0001, T-0002, T-0003, T-0005, T-0007\n"
        "    try: check the id on the list of people; erased people are not on it",
        lambda: find_person(told, "T-0099"),
        told,
    )
    for number in range(6):
        enroll(told, f"P {number}", f"p{number}@example.com", FIRST, LATER)
    with pytest.raises(EntryRefusedError, match=r"T-0009, T-0010, \.\.\.\n") as raised:
        find_person(told, "T-0004")
    assert raised.value.key == "unknown-person"


def test_an_erased_person_is_gone_and_the_chain_holds(path: Path) -> None:
    with open_store(path) as store:
        jo = find_person(store, "T-0003")
        erase(store, jo.id, FIRST, LATER)
        assert verify(store).events == LAST + 1
        assert verify(store).ok
        assert [person.id for person in people(store)] == ["T-0001", "T-0002", "T-0005", "T-0007"]
    left = path.read_bytes()
    for gone in (jo.name, "jo@example.com", "Jo Okafør", "salt 3"):
        assert gone.encode() not in left  # overwritten in the file, not only unlinked
    assert jo.ref.encode() in left


def test_what_the_erased_did_stays_and_is_nobodys(told: Store) -> None:
    kims = [one for one in all_certificates(told) if one.person_id is None]
    assert [(one.name, one.erased_on is not None) for one in kims] == [(None, True)]


def test_an_id_is_not_given_out_twice(store: Store) -> None:
    jo = enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    erase(store, jo.id, FIRST, NINE)
    again = enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    assert again.id == "T-0003"
    assert again.ref != jo.ref


def test_an_active_signer_is_not_erased(store: Store) -> None:
    jo = enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
    add_signer(store, jo.id, SECOND.public, FIRST, NINE)
    refused(
        "the person is an active signer\n    try: retire their key first; what it signed stays good",
        lambda: erase(store, jo.id, FIRST, NINE),
        store,
    )


def test_a_retired_signer_can_be_erased_and_the_signatures_hold(told: Store) -> None:
    erase(told, "T-0002", FIRST, LATER)
    assert verify(told).ok
    assert [(signer.id, signer.name) for signer in signers(told)] == [(FIRST.id, "Ann Reyes"), (SECOND.id, None)]


def test_only_a_signer_enrolls(store: Store) -> None:
    refused(
        f"the key {STRANGER.id} is not that of a registered signer\n"
        "    try: sign with a registered key, or let a present signer add this one first",
        lambda: enroll(store, "Jo", "jo@example.com", STRANGER, NINE),
        store,
    )


# --- duplicates ----------------------------------------------------------------------------------------


@pytest.fixture
def twice(store: Store) -> Store:
    """Give records in which Jo was enrolled twice: T-0002 has a form out, T-0003 has passed the quiz, T-0004 is Kim."""
    for name, email in (
        ("Jo Okafor", "jo@example.com"),
        ("Joe Okafor", "joe@example.com"),
        ("Kim Abara", "kim@ex.org"),
    ):
        enroll(store, name, email, FIRST, NINE)
    issue_form(store, "T-0002", form("M4C7"), FIRST, NINE)
    answered(store, "T-0003", "7K3Q", lambda: NINE)
    record_result(store, passed("7K3Q"), FIRST, NINE)
    sign_off(store, "T-0003", field_work(), FIRST, NINE)
    return store


def same(duplicate: str, kept: str, reason: str = "one address, two spellings") -> OnePerson:
    return OnePerson(duplicate, kept, reason)


def test_after_a_merge_there_is_one_person(twice: Store) -> None:
    asked = Application("T-0002", PROGRAM, COURSE)
    assert not assess(twice, asked, NINE.date()).granted
    one = merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    assert (one.id, one.name) == ("T-0002", "Jo Okafor")
    assert [person.id for person in people(twice)] == ["T-0001", "T-0002", "T-0004"]
    assert find_person(twice, "T-0003") == find_person(twice, "T-0002") == one
    assert [(dup.id, dup.reason, dup.seq) for dup in duplicates_of(twice, "T-0003")] == [
        ("T-0003", "one address, two spellings", head(twice).seq)
    ]
    assert [result.form for result in results_of(twice, "T-0002")] == ["7K3Q"]
    assert len(signoffs_of(twice, "T-0002")) == 1
    assert [(out.form, out.person_id) for out in forms_out(twice)] == [("M4C7", "T-0002")]
    assert grant(twice, asked, FIRST, LATER).person_id == "T-0002"
    assert [one.name for one in certificates_of(twice, "T-0003")] == ["Jo Okafor"]
    assert verify(twice).ok


def test_both_references_stay_in_the_chain(twice: Store) -> None:
    jo, joe = find_person(twice, "T-0002").ref, find_person(twice, "T-0003").ref
    merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    event = second_path.events(twice.path)[-1]
    assert (event["kind"], event["ref"], event["into"]) == ("people-merged", joe, jo)
    assert second_path.tables(second_path.events(twice.path)) == second_path.stored(twice.path)
    assert second_path.stored(twice.path)["form"]["7K3Q"]["ref"] == jo


def test_a_form_of_the_duplicate_that_is_out_comes_back_to_the_person(twice: Store) -> None:
    merge(twice, same("T-0002", "T-0003"), FIRST, LATER)
    assert [(out.form, out.person_id) for out in forms_out(twice)] == [("M4C7", "T-0003")]


def test_a_chain_of_duplicates_leads_to_one(twice: Store) -> None:
    merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    merge(twice, same("T-0002", "T-0004"), FIRST, LATER)
    assert find_person(twice, "T-0003").id == find_person(twice, "T-0002").id == "T-0004"
    assert [dup.id for dup in duplicates_of(twice, "T-0004")] == ["T-0002", "T-0003"]
    assert verify(twice).ok
    assert second_path.tables(second_path.events(twice.path)) == second_path.stored(twice.path)


def test_the_duplicates_address_leads_to_the_person(twice: Store) -> None:
    merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    refused(
        "joe@example.com belongs to T-0002, Jo Okafor, who is enrolled already\n"
        "    try: use T-0002; or give this person's own address",
        lambda: enroll(twice, "Joe Okafor", "joe@example.com", FIRST, LATER),
        twice,
    )


def test_with_the_person_all_duplicates_are_erased(twice: Store) -> None:
    merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    erase(twice, "T-0003", FIRST, LATER)
    assert [person.id for person in people(twice)] == ["T-0001", "T-0004"]
    assert verify(twice).ok
    left = twice.path.read_bytes()
    assert b"Okafor" not in left
    assert b"joe@example.com" not in left
    assert enroll(twice, "Joe Okafor", "joe@example.com", FIRST, LATER).id == "T-0005"


@pytest.mark.parametrize(
    ("duplicate", "kept", "message"),
    [
        ("T-0002", "T-0002", ("the person with the reference {jo} cannot be merged into itself\n"
         "    try: name the duplicate first, and then the person to keep")),
        ("T-0001", "T-0002", "a signer does not merge their own enrollments\n    try: let another signer do it"),
        ("T-0002", "T-0001", "a signer does not merge their own enrollments\n    try: let another signer do it"),
        ("T-0009", "T-0002", ("nobody with the id 'T-0009' is enrolled; there are: T-0001, T-0002, T-0003, T-0004\n"
         "    try: check the id on the list of people; erased people are not on it")),
    ],
)  # fmt: skip
def test_what_is_no_duplicate_is_refused(twice: Store, duplicate: str, kept: str, message: str) -> None:
    jo = find_person(twice, "T-0002").ref
    refused(message.format(jo=jo), lambda: merge(twice, same(duplicate, kept), FIRST, LATER), twice)


def test_nobody_is_merged_twice_or_into_a_duplicate(twice: Store) -> None:
    merge(twice, same("T-0003", "T-0002"), FIRST, LATER)
    jo, joe = (second_path.refs(twice.path)[one][0] for one in ("T-0002", "T-0003"))
    message = (
        f"the person with the reference {joe} was merged into the one with the reference {jo}\n"
        "    try: make the entry for that one"
    )
    refused(message, lambda: merge(twice, same("T-0003", "T-0004"), FIRST, LATER), twice)
    refused(message, lambda: merge(twice, same("T-0004", "T-0003"), FIRST, LATER), twice)


def test_an_erased_person_is_not_merged(twice: Store) -> None:
    gone, jo = find_person(twice, "T-0004").ref, find_person(twice, "T-0002").ref
    erase(twice, "T-0004", FIRST, LATER)
    for pair in ({"ref": gone, "into": jo}, {"ref": jo, "into": gone}):
        with pytest.raises(EntryRefusedError) as raised:
            append(twice, "people-merged", {**pair, "reason": "one"}, FIRST, LATER)
        assert raised.value.key == "erased-ref"


def test_a_merge_needs_a_reason_that_names_nobody(twice: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        merge(twice, same("T-0003", "T-0002", "Kim Abara found it out"), FIRST, LATER)
    assert raised.value.key == "names-person"
    with pytest.raises(EntryRefusedError) as raised:
        merge(twice, same("T-0003", "T-0002", " "), FIRST, LATER)
    assert raised.value.key == "wrong-shape"


def test_who_watched_and_who_was_watched_are_two(twice: Store) -> None:
    add_signer(twice, "T-0004", SECOND.public, FIRST, NINE)
    seq = sign_off(twice, "T-0002", field_work(watched_by=SECOND.id), FIRST, NINE).seq
    message = (
        f"the two cannot be one person: in event {seq} one of them vouches for the other (key {SECOND.id})\n"
        "    try: nobody watches or certifies themselves; look into that entry before anything else"
    )
    refused(message, lambda: merge(twice, same("T-0002", "T-0004"), FIRST, LATER), twice)
    refused(message, lambda: merge(twice, same("T-0004", "T-0002"), FIRST, LATER), twice)


def test_the_key_of_a_duplicate_becomes_the_persons(twice: Store) -> None:
    add_signer(twice, "T-0004", SECOND.public, FIRST, NINE)
    merge(twice, same("T-0004", "T-0002"), FIRST, LATER)
    assert [(one.id, one.person_id) for one in signers(twice)] == [(FIRST.id, "T-0001"), (SECOND.id, "T-0002")]
    with pytest.raises(EntryRefusedError) as raised:
        sign_off(twice, "T-0002", field_work(watched_by=SECOND.id), FIRST, LATER)
    assert raised.value.key == "signs-off-oneself"
    retire_signer(twice, SECOND.id, "left", FIRST, LATER)
    erase(twice, "T-0002", FIRST, LATER)
    assert verify(twice).ok


@pytest.mark.parametrize(
    ("table", "key", "column"),
    [("enrollment", "ref", "merged_into"), ("enrollment", "ref", "merge_reason"), ("result", "form", "ref")],
)
def test_a_merge_undone_by_hand_is_found(twice: Store, table: str, key: str, column: str) -> None:
    joe = find_person(twice, "T-0003").ref
    seq = 1 + merge_and_count(twice)
    with by_hand(twice.path) as file:
        change(file, (table, key, "7K3Q" if table == "result" else joe), column, joe if column == "ref" else None)
    found = verify(twice)
    assert (found.ok, found.first_bad) == (False, seq)


def merge_and_count(store: Store) -> int:
    """Merge the two of the fixture; return how many events there were before."""
    before = head(store).seq
    merge(store, same("T-0003", "T-0002"), FIRST, LATER)
    return before
