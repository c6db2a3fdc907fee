"""Quiz forms that go out and come back."""

import hashlib
from datetime import datetime

from courseware.records.events import Event
from courseware.records.keys import SigningKey
from courseware.records.kinds import forms as kinds
from courseware.records.ledger import append
from courseware.records.people import find_person
from courseware.records.store import Store


def issue_form(
    store: Store,
    person_id: str,
    form_id: str,
    blueprint: str,
    key: SigningKey,
    now: datetime,
    *,
    course_version: str,
    course_hash: str,
    form: bytes,
    sealed_key: bytes,
) -> Event:
    """Record that a form was issued to a person.

    Parameters
    ----------
    store : Store
        The records.
    person_id : str
        Who gets it.
    form_id, blueprint : str
        Which form, drawn from which blueprint.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.
    course_version, course_hash : str
        Of the course it was drawn from; the hash in 64 hexadecimal digits.
    form, sealed_key : bytes
        The issued form and its sealed key, as archived; the record keeps their SHA-256.

    Raises
    ------
    Refused
        If there is no such person, or a form of that id was issued before.
    """
    with store.transaction():
        body = {
            "form": form_id,
            "ref": find_person(store, person_id).ref,
            "blueprint": blueprint,
            "course_version": course_version,
            "course_hash": course_hash,
            "form_sha256": hashlib.sha256(form).hexdigest(),
            "key_sha256": hashlib.sha256(sealed_key).hexdigest(),
        }
        return append(store, kinds.ISSUED.name, body, key, now)


def receive_response(
    store: Store,
    form_id: str,
    response: bytes,
    key: SigningKey,
    now: datetime,
    *,
    channel: str,
    started: str = "",
    finished: str = "",
) -> Event:
    """Record that the answers to a form came back.

    Parameters
    ----------
    store : Store
        The records.
    form_id : str
        Which form.
    response : bytes
        The answers, as archived; the record keeps their SHA-256.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.
    channel : str
        ``file``, ``typed`` or ``paper``.
    started, finished : str
        What the trainee's machine says, such as ``2026-11-25T14:03:07Z``; empty if it says nothing.

    Raises
    ------
    Refused
        If no such form was issued, or it was answered before.
    """
    body = {
        "form": form_id,
        "response_sha256": hashlib.sha256(response).hexdigest(),
        "channel": channel,
        "started": started,
        "finished": finished,
    }
    return append(store, kinds.RECEIVED.name, body, key, now)
