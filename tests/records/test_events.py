"""The seal: hashes against published and recomputed values, and every way of breaking one, told apart."""

import hashlib
import json
import re
from dataclasses import replace
from typing import Any

import pytest

from courseware.records.errors import BadEventError
from courseware.records.events import GENESIS, Event, Head, Sealed, chain_hash, seal, unseal
from tests.records.story import FIRST, SECOND, STRANGER

BEFORE = Head(6, hashlib.sha256(b"the event before").digest())
EVENT = Event(7, "2026-11-25T14:03:07Z", "form-issued", FIRST.id, {"form": "7K3Q", "ref": "ab" * 32})
SEALED = seal(EVENT, BEFORE.hash, FIRST)
BACK = "\n    try: compare it with the last copy that verifies, and put that back"


def public_key_of(event: Event) -> bytes | None:
    return {FIRST.id: FIRST.public, SECOND.id: SECOND.public}.get(event.signer)


def test_the_hash_is_sha_256() -> None:
    # FIPS 180-4 example, "abc".
    assert chain_hash(b"", b"abc").hex() == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_chain_of_three() -> None:
    # Computed beforehand with sha256sum; no published source. The second path is json and hashlib.
    entries: list[tuple[dict[str, Any], str]] = [
        (
            {"event": "issued", "seq": 1, "who": "T-001"},
            "08e90db5e356a51921dc393db6e200b5d0ad3731be7c24030b2470af3f99607f",
        ),
        (
            {"event": "graded", "score": 17, "seq": 2, "who": "T-001"},
            "585468055fe4cb3c2fc2d0c7dbd64da5d49c4fa65917ee20f052a7257e88aecc",
        ),
        (
            {"event": "certified", "seq": 3, "who": "T-001"},
            "ad11e92bb236a71bf54a06aa812b12be2157fc1eda62e9d8401aa57439c8ab34",
        ),
    ]
    ours = theirs = GENESIS
    for value, expected in entries:
        text = json.dumps(value, sort_keys=True, separators=(",", ":")).encode()
        ours = chain_hash(ours, text)
        theirs = hashlib.sha256(b"".join((theirs, text))).digest()
        assert ours.hex() == theirs.hex() == expected


def test_what_is_hashed_is_the_whole_event() -> None:
    assert EVENT.content() == (
        b'{"at":"2026-11-25T14:03:07Z","body":{"form":"7K3Q","ref":"' + b"ab" * 32 + b'"},'
        b'"format":"courseware/event/1","kind":"form-issued","seq":7,"signer":"' + FIRST.id.encode() + b'"}'
    )
    assert SEALED.hash == hashlib.sha256(BEFORE.hash + EVENT.content()).digest()


def test_a_sealed_event_opens() -> None:
    assert unseal(SEALED, BEFORE, public_key_of) == EVENT


FORGED = seal(EVENT, BEFORE.hash, STRANGER)
NOT_A_SIGNER = seal(replace(EVENT, signer=STRANGER.id), BEFORE.hash, STRANGER)


@pytest.mark.parametrize(
    ("sealed", "message"),
    [
        (
            replace(SEALED, seq=9),
            (
                "event 7 is missing: the next one found has the number 9\n"
                "    try: it was deleted, "
                "moved or renumbered after it was written; put back the last copy that verifies"
            ),
        ),
        (replace(SEALED, at="2026-11-25"), "event 7 was altered: its moment is '2026-11-25'" + BACK),
        (replace(SEALED, at=b"2026"), "event 7 was altered: its moment is b'2026'" + BACK),
        (
            replace(SEALED, at="2026-11-25T14:03:08Z"),
            "event 7 was altered: its content is not what was signed in this place of the chain" + BACK,
        ),
        (
            replace(SEALED, kind="form-issuee"),
            "event 7 was altered: its content is not what was signed in this place of the chain" + BACK,
        ),
        (replace(SEALED, kind="form\udcff"), "event 7 was altered: its kind is 'form\\udcff'" + BACK),
        (replace(SEALED, signer=None), "event 7 was altered: its signer is None" + BACK),
        (
            replace(SEALED, signer=SECOND.id),
            "event 7 was altered: its content is not what was signed in this place of the chain" + BACK,
        ),
        (
            replace(SEALED, signer="0" * 32),
            (
                f"event 7 names the signer {'0' * 32}, whom no event before it has registered\n"
                "    try: somebody who is no signer wrote it, or it was altered; put back the last copy that verifies"
            ),
        ),
        (
            replace(SEALED, body=SEALED.body.replace(b"7K3Q", b"7K3R")),
            "event 7 was altered: its content is not what was signed in this place of the chain" + BACK,
        ),
        (
            replace(SEALED, body=SEALED.body.replace(b":", b": ", 1)),
            "event 7 was altered: its body is not in canonical form" + BACK,
        ),
        (replace(SEALED, body=b"[1,2]"), "event 7 was altered: its body is not in canonical form" + BACK),
        (replace(SEALED, body=b"[" * 100_000), "event 7 was altered: its body is not in canonical form" + BACK),
        (replace(SEALED, body="text"), "event 7 was altered: its body is not in canonical form" + BACK),
        (
            replace(SEALED, prev_hash=bytes(32)),
            (
                "the link of event 7 to its predecessor was altered: content and signature are as they were written\n"
                "    try: put back the last copy that verifies"
            ),
        ),
        (
            replace(SEALED, hash=bytes(32)),
            (
                "the hash of event 7 was altered: content and signature are as they were written\n"
                "    try: put back the last copy that verifies"
            ),
        ),
        (replace(SEALED, hash=b"short"), "event 7 was altered: its hash is not 32 bytes long" + BACK),
        (replace(SEALED, signature=""), "event 7 was altered: its signature is not 64 bytes long" + BACK),
        (
            replace(SEALED, signature=bytes(64)),
            (
                f"the signature of event 7 is not that of the signer it names, {FIRST.id}\n"
                "    try: the signature was altered, or somebody without that signer's key wrote the event; "
                "put back the last copy that verifies"
            ),
        ),
        (
            FORGED,
            (
                f"the signature of event 7 is not that of the signer it names, {FIRST.id}\n"
                "    try: the signature was altered, or somebody without that signer's key wrote the event; "
                "put back the last copy that verifies"
            ),
        ),
        (
            NOT_A_SIGNER,
            (
                f"event 7 names the signer {STRANGER.id}, whom no event before it has registered\n"
                "    try: somebody who is no signer wrote it, or it was altered; put back the last copy that verifies"
            ),
        ),
        (
            seal(EVENT, bytes(32), FIRST),
            "event 7 was altered: its content is not what was signed in this place of the chain" + BACK,
        ),
    ],
)
def test_every_way_of_breaking_a_seal_is_told_apart(sealed: Sealed, message: str) -> None:
    with pytest.raises(BadEventError, match=f"^{re.escape(message)}$") as raised:
        unseal(sealed, BEFORE, public_key_of)
    assert raised.value.seq == 7
