from datetime import timedelta

import pytest

from courseware.records.errors import EntryRefusedError
from courseware.records.people import enroll
from courseware.records.signers import add_signer, retire_signer, signers
from courseware.records.store import Store
from courseware.records.verify import verify
from tests.records.story import FIRST, NINE, SECOND, STRANGER

LATER = NINE + timedelta(hours=1)


def test_a_signer_is_a_person_with_a_key(store: Store) -> None:
    bo = enroll(store, "Bo Lindqvist", "bo@example.com", FIRST, NINE)
    assert add_signer(store, bo.id, SECOND.public, FIRST, NINE) == SECOND.id
    assert [(one.id, one.person_id, one.name, one.public_key, one.retired_at) for one in signers(store)] == [
        (FIRST.id, "T-0001", "Ann Reyes", FIRST.public, None),
        (SECOND.id, "T-0002", "Bo Lindqvist", SECOND.public, None),
    ]
    enroll(store, "Jo", "jo@example.com", SECOND, NINE)
    assert verify(store).ok


def refusal(error: pytest.ExceptionInfo[EntryRefusedError]) -> str:
    return str(error.value)


def test_a_key_is_registered_once(told: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        add_signer(told, "T-0003", SECOND.public, FIRST, LATER)
    assert refusal(raised) == (
        f"the key {SECOND.id} has been registered before\n"
        "    try: make a new key: a retired key is not taken back, and a key belongs to one person"
    )


def test_only_a_signer_adds_a_signer(store: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        add_signer(store, "T-0001", STRANGER.public, STRANGER, NINE)
    assert raised.value.key == "unknown-signer"


def test_a_retired_signer_signs_no_more(told: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        enroll(told, "Pat", "pat@example.com", SECOND, LATER)
    assert refusal(raised) == (
        f"the key {SECOND.id} was retired on 2026-11-25T14:20:00Z\n    try: let an active signer do it"
    )


def test_the_last_signer_is_not_retired(told: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        retire_signer(told, FIRST.id, "left", FIRST, LATER)
    assert refusal(raised) == (
        "this is the last active signer; without one nothing could be recorded any more\n"
        "    try: add another signer first"
    )


def test_a_signer_may_retire_their_own_key(store: Store) -> None:
    add_signer(store, "T-0001", SECOND.public, FIRST, NINE)
    retire_signer(store, FIRST.id, "lost the stick", FIRST, NINE)
    assert [one.retired_at for one in signers(store)] == ["2026-11-25T14:00:00Z", None]
    assert verify(store).ok


def test_a_public_key_of_the_wrong_size_is_refused(store: Store) -> None:
    with pytest.raises(EntryRefusedError) as raised:
        add_signer(store, "T-0001", b"short", FIRST, NINE)
    assert refusal(raised) == (
        "in an entry 'signer-added', 'public_key' is '73686f7274'; allowed is 64 hexadecimal digits\n"
        "    try: correct the value"
    )
