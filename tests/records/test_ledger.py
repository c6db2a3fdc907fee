import re
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from courseware.records.errors import EntryRefusedError
from courseware.records.events import GENESIS, Head
from courseware.records.ledger import append, begin, company_of, correct_clock, head
from courseware.records.people import enroll
from courseware.records.store import Store, open_store
from courseware.records.verify import verify
from tests.records import second_path
from tests.records.story import FIRST, LAST, NINE, SECOND, salts


def test_an_empty_store_has_no_company_and_no_head(tmp_path: Path) -> None:
    with open_store(tmp_path / "new.db", create=True) as store:
        assert company_of(store) is None
        assert head(store) == Head(0, GENESIS)
        with pytest.raises(EntryRefusedError) as raised:
            enroll(store, "Jo", "jo@example.com", FIRST, NINE)
        assert str(raised.value) == (
            "these records have not been begun\n    try: set up the company and its first signer"
        )


def test_the_first_event_sets_up_company_and_signer(store: Store) -> None:
    company = company_of(store)
    assert company is not None
    assert (company.name, company.begun_at) == ("Northfield Heater Service", "2026-11-25T14:00:00Z")
    (event,) = second_path.events(store.path)
    assert event["kind"] == "company-begun"
    assert event["by"] == FIRST.id
    assert event["public_key"] == FIRST.public.hex()
    assert "Reyes" not in str(event)


def test_records_are_begun_once(store: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        begin(store, "Another", "Bo Lind", SECOND, NINE)
    assert str(raised.value) == (
        "these records have been begun already\n    try: open them as they are; another company needs a file of its own"
    )
    assert head(store).seq == 1


def test_a_company_needs_a_name(tmp_path: Path) -> None:
    with open_store(tmp_path / "new.db", create=True) as store, pytest.raises(EntryRefusedError) as raised:
        begin(store, "  ", "Ann Reyes", FIRST, NINE)
    assert str(raised.value) == (
        "in an entry 'company-begun', 'company' is ''; allowed is one line of text, at most 200 characters, "
        "with no space at either end\n    try: correct the value"
    )


def test_the_head_is_the_last_event(told: Store) -> None:
    found = head(told)
    assert found.seq == LAST
    assert verify(told).head == found


def test_the_same_story_gives_the_same_chain(tmp_path: Path) -> None:
    heads = set()
    for name in ("one.db", "two.db"):
        with open_store(tmp_path / name, create=True, salts=salts()) as store:
            begin(store, "Northfield", "Ann Reyes", FIRST, NINE)
            enroll(store, "Jo", "jo@example.com", FIRST, NINE)
            heads.add(head(store))
    assert len(heads) == 1
    assert (tmp_path / "one.db").read_bytes() == (tmp_path / "two.db").read_bytes()


def test_a_clock_that_is_behind_is_refused(store: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        enroll(store, "Jo", "jo@example.com", FIRST, datetime(2000, 1, 1, tzinfo=UTC))
    assert str(raised.value) == (
        "the last entry is dated 2026-11-25T14:00:00Z, and this computer's clock says 2000-01-01T00:00:00Z\n"
        "    try: set the clock; if the clock was wrong when the last entry was made, "
        "record first that it was corrected"
    )
    enroll(store, "Jo", "jo@example.com", FIRST, NINE)  # the same second is fine


def test_after_a_clock_ran_ahead_the_records_go_on(store: Store) -> None:
    enroll(store, "Jo", "jo@example.com", FIRST, datetime(2062, 1, 1, tzinfo=UTC))
    correct_clock(store, "the clock was set to 2062", FIRST, NINE)
    enroll(store, "Bo", "bo@example.com", FIRST, NINE + timedelta(minutes=1))
    assert verify(store).events == 4
    assert verify(store).ok


@pytest.mark.parametrize("reason", ["because ANN  reyes said so", "ask Jo@Example.com", "Jo's clock"])
def test_a_reason_names_nobody(store: Store, reason: str) -> None:
    enroll(store, "Jo", "jo@example.com", FIRST, NINE)
    person = "T-0001" if "ANN" in reason else "T-0002"
    message = (
        f"the text names {person}, and what stands in the chain cannot be erased\n"
        "    try: say it without the name and the e-mail"
    )
    with pytest.raises(EntryRefusedError, match=f"^{re.escape(message)}$"):
        correct_clock(store, reason, FIRST, NINE)


def test_a_word_that_holds_a_name_is_no_name(store: Store) -> None:
    enroll(store, "Jo", "jo@example.com", FIRST, NINE)
    correct_clock(store, "the jointer's clock was wrong", FIRST, NINE)


def test_a_caller_cannot_append_what_the_law_does_not_know(store: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        append(store, "certificate-suspended", {}, FIRST, NINE)
    assert str(raised.value) == (
        "'certificate-suspended' is no kind of entry; there are: certificate-granted, certificate-withdrawn, "
        "clock-corrected, company-begun, evidence-entered, evidence-withdrawn, form-issued, form-voided, "
        "people-merged, person-corrected, person-enrolled, person-erased, procedure-signed-off, response-received, "
        "result-recorded, sign-off-withdrawn, signer-added, signer-retired\n"
        "    try: update this program: a newer one may know it"
    )
    with pytest.raises(EntryRefusedError) as raised:
        append(store, "person-erased", {"ref": "00" * 32, "why": "x"}, FIRST, NINE)
    assert str(raised.value) == (
        "an entry 'person-erased' has the fields ref; found: ref, why\n"
        "    try: update this program: a newer one may know the other fields"
    )


def refusal(store: Store, kind: str, body: Mapping[str, object]) -> str:
    with pytest.raises(EntryRefusedError) as raised:
        append(store, kind, body, FIRST, NINE + timedelta(hours=1))
    return str(raised.value)


def test_the_first_event_names_its_own_key(tmp_path: Path) -> None:
    body = {"company": "Mine", "public_key": SECOND.public.hex(), "ref": "ab" * 32, "identity": "cd" * 32}
    with open_store(tmp_path / "new.db", create=True) as store:
        assert refusal(store, "company-begun", body) == (
            f"the id {FIRST.id} does not belong to the key of the first signer\n"
            "    try: begin the records again in a new file"
        )


def test_a_reference_is_used_once_and_not_after_its_erasure(told: Store) -> None:
    enrollments = second_path.stored(told.path)["enrollment"].values()
    kim = next(row for row in enrollments if row["erased_at"])
    again = {"ref": kim["ref"], "identity": "cd" * 32}
    assert refusal(told, "person-enrolled", again) == (
        f"somebody with the reference {kim['ref']} is enrolled already\n"
        "    try: enroll the person with a fresh salt"
    )  # fmt: skip
    assert refusal(told, "person-corrected", again) == (
        f"the person with the reference {kim['ref']} was erased on {kim['erased_at']}\n"
        "    try: enroll the person anew if they have come back"
    )
    assert refusal(told, "person-corrected", {**again, "ref": "ab" * 32}) == (
        f"nobody with the reference {'ab' * 32} was ever enrolled\n    try: enroll the person first"
    )
