import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courseware.records.errors import EntryRefusedError
from courseware.records.ledger import head
from courseware.records.people import correct, enroll, erase, find_person, people
from courseware.records.registers import all_certificates
from courseware.records.signers import add_signer, signers
from courseware.records.store import Store, open_store
from courseware.records.verify import verify
from tests.records.story import FIRST, LAST, NINE, SECOND, STRANGER

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
        "nobody with the id 'T-0099' is enrolled; there are: T-0001, T-0002, T-0003, T-0005\n"
        "    try: check the id on the list of people; erased people are not on it",
        lambda: find_person(told, "T-0099"),
        told,
    )
    for number in range(6):
        enroll(told, f"P {number}", f"p{number}@example.com", FIRST, LATER)
    with pytest.raises(EntryRefusedError, match=r"T-0008, T-0009, \.\.\.\n") as raised:
        find_person(told, "T-0004")
    assert raised.value.key == "unknown-person"


def test_an_erased_person_is_gone_and_the_chain_holds(path: Path) -> None:
    with open_store(path) as store:
        jo = find_person(store, "T-0003")
        erase(store, jo.id, FIRST, LATER)
        assert verify(store).events == LAST + 1
        assert verify(store).ok
        assert [person.id for person in people(store)] == ["T-0001", "T-0002", "T-0005"]
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
