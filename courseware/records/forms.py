"""Quiz forms that go out, and come back or are voided."""

import hashlib
from dataclasses import dataclass
from datetime import datetime

from courseware.records.events import Event
from courseware.records.keys import SigningKey
from courseware.records.kinds import forms as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.moments import stamp_of
from courseware.records.people import find_person
from courseware.records.store import Store


@dataclass(frozen=True, slots=True)
class IssuedForm:
    """A form as it goes out.

    Attributes
    ----------
    id, blueprint : str
        Which form, drawn from which blueprint.
    course_version, course_hash : str
        Of the course it was drawn from; the hash in 64 hexadecimal digits.
    form, sealed_key : bytes
        The form and its sealed key, as archived; the record keeps their SHA-256.
    """

    id: str
    blueprint: str
    course_version: str
    course_hash: str
    form: bytes
    sealed_key: bytes


@dataclass(frozen=True, slots=True)
class ReceivedResponse:
    """The answers to a form, as they came in.

    Attributes
    ----------
    form : str
        Id of the form.
    response : bytes
        The answers, as archived; the record keeps their SHA-256.
    channel : str
        ``file``, ``typed`` or ``paper``.
    started, finished : str
        What the trainee's machine says, in ISO 8601 with offset; whatever is no such moment is left out of the
        record, because nothing that a trainee types may enter the chain.
    """

    form: str
    response: bytes
    channel: str
    started: str = ""
    finished: str = ""


def issue_form(store: Store, person_id: str, issued: IssuedForm, key: SigningKey, now: datetime) -> Event:
    """Record that a form was issued to a person.

    Parameters
    ----------
    store : Store
        The records.
    person_id : str
        Who gets it.
    issued : IssuedForm
        What goes out.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If there is no such person, or a form of that id was issued before.
    """
    with store.transaction():
        body = {
            "form": issued.id,
            "ref": find_person(store, person_id).ref,
            "blueprint": issued.blueprint,
            "course_version": issued.course_version,
            "course_hash": issued.course_hash,
            "form_sha256": hashlib.sha256(issued.form).hexdigest(),
            "key_sha256": hashlib.sha256(issued.sealed_key).hexdigest(),
        }
        return append(store, kinds.ISSUED.name, body, key, now)


def receive_response(store: Store, received: ReceivedResponse, key: SigningKey, now: datetime) -> Event:
    """Record that the answers to a form came back.

    Parameters
    ----------
    store : Store
        The records.
    received : ReceivedResponse
        What came in.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If no such form was issued, or it was answered before.
    """
    body = {
        "form": received.form,
        "response_sha256": hashlib.sha256(received.response).hexdigest(),
        "channel": received.channel,
        "started": stamp_of(received.started),
        "finished": stamp_of(received.finished),
    }
    return append(store, kinds.RECEIVED.name, body, key, now)


def void_form(store: Store, form_id: str, reason: str, key: SigningKey, now: datetime) -> Event:
    """Record that a form that is out is void: no answers to it count any more.

    Parameters
    ----------
    store : Store
        The records.
    form_id : str
        Which form.
    reason : str
        Why, naming nobody.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If no such form was issued, it was answered or voided before, or the reason is empty or names somebody.
    """
    with store.transaction() as session:
        names_nobody(session, reason)
        return append(store, kinds.VOIDED.name, {"form": form_id, "reason": reason.strip()}, key, now)
