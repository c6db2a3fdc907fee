"""The records read a second way: sqlite3, json, hashlib, hmac and the Ed25519 of cryptography, none of our code.

It makes every table again from the events, by its own reading of what the kinds mean.
"""

import hashlib
import hmac
import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from string import Template
from typing import Any

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

SELECT = Template("SELECT * FROM $table")
Table = dict[Any, dict[str, Any]]
TABLES = ("enrollment", "signer", "form", "result", "signoff", "evidence", "certificate")


def dump(value: Any) -> str:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def events(path: Path) -> list[dict[str, Any]]:
    """Return the events, each proved by hash and signature, or raise."""
    found = []
    last = bytes(32)
    keys: dict[str, bytes] = {}
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as file:
        rows = file.execute(
            "SELECT seq, at, kind, signer, body, prev_hash, hash, signature FROM event ORDER BY seq"
        ).fetchall()
    for number, (seq, at, kind, signer, body, before, digest, signature) in enumerate(rows, start=1):
        content = json.loads(body)
        if "public_key" in content:
            public = bytes.fromhex(content["public_key"])
            keys[hashlib.sha256(public).hexdigest()[:32]] = public
        text = dump(
            {"format": "courseware/event/1", "seq": seq, "at": at, "kind": kind, "signer": signer, "body": content}
        )
        assert seq == number
        assert before == last
        assert digest == hashlib.sha256(before + text.encode("utf-8")).digest()
        Ed25519PublicKey.from_public_bytes(keys[signer]).verify(signature, digest)
        last = digest
        found.append({**content, "seq": seq, "at": at, "kind": kind, "by": signer})
    return found


def tables(events_: list[dict[str, Any]]) -> dict[str, Table]:
    """Return every projection, by primary key."""
    made: dict[str, Table] = {name: {} for name in TABLES}
    for event in events_:
        READERS[event["kind"]](event, made)
    return made


def _enroll(event: dict[str, Any], made: dict[str, Table]) -> None:
    seq = event["seq"]
    made["enrollment"][event["ref"]] = {
        "ref": event["ref"], "seq": seq, "last_seq": seq, "identity": event["identity"],
        "enrolled_at": event["at"], "erased_at": None, "merged_into": None, "merge_reason": None,
    }  # fmt: skip


def _sign(event: dict[str, Any], made: dict[str, Table]) -> None:
    name = hashlib.sha256(bytes.fromhex(event["public_key"])).hexdigest()[:32]
    made["signer"][name] = {
        "id": name, "seq": event["seq"], "last_seq": event["seq"], "public_key": event["public_key"],
        "ref": event["ref"], "added_at": event["at"], "retired_at": None,
    }  # fmt: skip


def _begin(event: dict[str, Any], made: dict[str, Table]) -> None:
    _enroll(event, made)
    _sign(event, made)


def _issue(event: dict[str, Any], made: dict[str, Table]) -> None:
    copied = ("ref", "blueprint", "course_version", "course_hash", "form_sha256", "key_sha256")
    made["form"][event["form"]] = {
        "id": event["form"], "seq": event["seq"], "last_seq": event["seq"], "issued_at": event["at"],
        "answered_at": None, "response_sha256": None, "channel": None, "voided_at": None, "void_reason": None,
        **{name: event[name] for name in copied},
    }  # fmt: skip


def _receive(event: dict[str, Any], made: dict[str, Table]) -> None:
    made["form"][event["form"]].update(
        last_seq=event["seq"],
        answered_at=event["at"],
        response_sha256=event["response_sha256"],
        channel=event["channel"],
    )


def _record(event: dict[str, Any], made: dict[str, Table]) -> None:
    issued = made["form"][event["form"]]
    if event["replaces"] is not None:
        made["result"][event["replaces"]].update(last_seq=event["seq"], replaced_by=event["seq"])
    made["result"][event["seq"]] = {
        "seq": event["seq"], "last_seq": event["seq"], "form": issued["id"], "ref": issued["ref"],
        "blueprint": issued["blueprint"], "score": event["score"], "cut": event["cut"], "passed": int(event["passed"]),
        "gates": dump(event["gates"]), "objectives": dump(event["objectives"]),
        "supervised_by": event["supervised_by"], "recorded_at": event["at"], "replaced_by": None,
    }  # fmt: skip


def _sign_off(event: dict[str, Any], made: dict[str, Table]) -> None:
    copied = ("seq", "ref", "procedure", "unit", "watched_by", "remark", "course_version", "course_hash")
    made["signoff"][event["seq"]] = {
        "last_seq": event["seq"], "done_on": event["on"], "serial": event.get("serial", ""),
        "withdrawn_at": None, "withdrawn_reason": None, **{name: event[name] for name in copied},
    }  # fmt: skip


def _enter_evidence(event: dict[str, Any], made: dict[str, Table]) -> None:
    copied = (
        "seq", "ref", "topic", "name", "evidence", "seen_on", "seen_by", "course_version", "course_hash",
    )  # fmt: skip
    made["evidence"][event["seq"]] = {
        "last_seq": event["seq"], "withdrawn_at": None, "withdrawn_reason": None,
        **{name: event[name] for name in copied},
    }  # fmt: skip


def _take_back(table: str, field: str) -> Callable[[dict[str, Any], dict[str, Table]], None]:
    return lambda event, made: made[table][event[field]].update(
        last_seq=event["seq"], withdrawn_at=event["at"], withdrawn_reason=event["reason"]
    )


def _merge(event: dict[str, Any], made: dict[str, Table]) -> None:
    made["enrollment"][event["ref"]]["merge_reason"] = event["reason"]
    for row in made["enrollment"].values():
        if event["ref"] in (row["ref"], row["merged_into"]):
            row.update(merged_into=event["into"], last_seq=event["seq"])
    for name in TABLES[1:]:
        for row in made[name].values():
            if row["ref"] == event["ref"]:
                row.update(ref=event["into"], last_seq=event["seq"])


def _erase(event: dict[str, Any], made: dict[str, Table]) -> None:
    for row in made["enrollment"].values():
        if event["ref"] in (row["ref"], row["merged_into"]):
            row.update(erased_at=event["at"], last_seq=event["seq"])


def _grant(event: dict[str, Any], made: dict[str, Table]) -> None:
    copied = ("code", "ref", "program", "title", "course_version", "course_hash", "valid_from", "valid_until")
    made["certificate"][event["code"]] = {
        "seq": event["seq"], "last_seq": event["seq"], "signer": event["by"], "results": dump(event["results"]),
        "scope": dump(event["scope"]), "withdrawn_on": None, "withdrawn_reason": None,
        "signoffs": dump(event.get("signoffs", [])), "quiz_evidence": dump(event.get("quiz_evidence", {})),
        "signoff_evidence": dump(event.get("signoff_evidence", {})),
        **{name: event[name] for name in copied},
    }  # fmt: skip


def _withdraw(event: dict[str, Any], made: dict[str, Table]) -> None:
    made["certificate"][event["code"]].update(
        last_seq=event["seq"], withdrawn_on=event["on"], withdrawn_reason=event["reason"]
    )


READERS: dict[str, Callable[[dict[str, Any], dict[str, Table]], None]] = {
    "company-begun": _begin,
    "clock-corrected": lambda _event, _made: None,
    "person-enrolled": _enroll,
    "person-corrected": lambda event, made: made["enrollment"][event["ref"]].update(
        identity=event["identity"], last_seq=event["seq"]
    ),
    "people-merged": _merge,
    "person-erased": _erase,
    "signer-added": _sign,
    "signer-retired": lambda event, made: made["signer"][event["signer"]].update(
        retired_at=event["at"], last_seq=event["seq"]
    ),
    "form-issued": _issue,
    "response-received": _receive,
    "form-voided": lambda event, made: made["form"][event["form"]].update(
        last_seq=event["seq"], voided_at=event["at"], void_reason=event["reason"]
    ),
    "result-recorded": _record,
    "procedure-signed-off": _sign_off,
    "sign-off-withdrawn": _take_back("signoff", "signoff"),
    "evidence-entered": _enter_evidence,
    "evidence-withdrawn": _take_back("evidence", "entry"),
    "certificate-granted": _grant,
    "certificate-withdrawn": _withdraw,
}


def stored(path: Path) -> dict[str, Table]:
    """Return every projection as the file has it."""
    found = {}
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as file:
        file.row_factory = sqlite3.Row
        for name, key in (
            ("enrollment", "ref"),
            ("signer", "id"),
            ("form", "id"),
            ("result", "seq"),
            ("signoff", "seq"),
            ("evidence", "seq"),
            ("certificate", "code"),
        ):
            found[name] = {row[key]: dict(row) for row in file.execute(SELECT.substitute(table=name))}
    return found


def refs(path: Path) -> dict[str, tuple[str, str]]:
    """Return, for each person's id, reference and commitment as RFC 2104 makes them from the row."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as file:
        return {
            person_id: (
                hmac.digest(salt, person_id.encode(), "sha256").hex(),
                hmac.digest(salt, dump({"email": email, "name": name}).encode(), "sha256").hex(),
            )
            for person_id, name, email, salt in file.execute("SELECT id, name, email, salt FROM person")
        }
