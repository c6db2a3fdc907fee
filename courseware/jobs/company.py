"""A company's folder: its copy of the course, its office with the records and keys, and what is built from both.

::

    FOLDER/
      question_bank/, modules/     the course, the company's to edit
      office/                      nobody's but the office's: the secret, the signing key, the records, the archive
      build/                       what the commands make: trainee/, trainer/, office/

The secret and the signing key never leave ``office/``; the archive there holds every form as it was issued with
its sealed key, so that an old form can be graded after the course has changed.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from courseware.content.folders import is_course
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.publish.output import OutputFolders, write_file
from courseware.quiz.form import Form, Key, form_bytes, form_from_bytes, key_bytes, key_from_bytes
from courseware.quiz.seal import open_sealed, seal
from courseware.records.identity import Person, new_salt
from courseware.records.keys import (
    SigningKey,
    load_company_secret,
    load_signing_key,
    new_company_secret,
    new_signing_key,
    save_company_secret,
    save_signing_key,
)
from courseware.records.ledger import begin, company_of
from courseware.records.signers import signers
from courseware.records.store import Store, open_store

OFFICE: Final = "office"
BUILD: Final = "build"


@dataclass(frozen=True, slots=True)
class Places:
    """Where a company's things lie.

    Attributes
    ----------
    folder : Path
        The company's folder.
    out : Path or None
        Where the commands write; ``build`` in the folder by default.
    """

    folder: Path
    out: Path | None = None

    @property
    def office(self) -> Path:
        """Return the office's folder."""
        return self.folder / OFFICE

    @property
    def secret(self) -> Path:
        """Return the file of the company's secret."""
        return self.office / "secret.txt"

    @property
    def signing_key(self) -> Path:
        """Return the file of the signing key."""
        return self.office / "signing-key.pem"

    @property
    def records(self) -> Path:
        """Return the file of the records."""
        return self.office / "records.sqlite"

    @property
    def archive(self) -> Path:
        """Return the folder of forms as issued."""
        return self.office / "forms"

    @property
    def build(self) -> OutputFolders:
        """Return the folders that pages and papers are written to."""
        return OutputFolders.under(self.out or self.folder / BUILD)


@dataclass(frozen=True, slots=True)
class Company:
    """A company at work: its places, its open records, and the two keys.

    Attributes
    ----------
    places : Places
        Where its things lie.
    name : str
        As the first entry of the records has it.
    store : Store
        The open records.
    secret : bytes
        What forms are drawn from and keys sealed with.
    key : SigningKey
        The key of the signer at this desk.
    """

    places: Places
    name: str
    store: Store
    secret: bytes
    key: SigningKey


@dataclass(frozen=True, slots=True)
class Beginning:
    """How a company is set up.

    Attributes
    ----------
    company, signer : str
        Name of the company, and of its first qualified signer.
    passphrase : str
        Protects the signing key; empty for none.
    secret : bytes or None
        The company's secret; random by default.
    key : SigningKey or None
        The signer's key; random by default.
    salts : callable
        Gives the salts of people; random by default.
    """

    company: str
    signer: str
    passphrase: str = ""
    secret: bytes | None = None
    key: SigningKey | None = None
    salts: Callable[[], bytes] = new_salt


def begin_company(folder: Path, beginning: Beginning, now: datetime) -> Person:
    """Set up the office of a company: secret, signing key, records with their first entry.

    Parameters
    ----------
    folder : Path
        The company's folder, made by ``courseware new``.
    beginning : Beginning
        Names, and keys where they are not to be random.
    now : datetime
        With a time zone.

    Returns
    -------
    Person
        The first qualified signer.

    Raises
    ------
    Refusal
        If the folder holds no course, or the company has been set up before.
    """
    places = Places(folder)
    if not is_course(folder):
        raise Refusal(say("jobs.no-course-here", folder=folder), say("jobs.no-course-here-try", folder=folder))
    if places.records.exists():
        raise Refusal(say("jobs.begun-before", file=places.records), say("jobs.begun-before-try"))
    places.office.mkdir(mode=0o700, exist_ok=True)
    key = beginning.key or new_signing_key()
    save_company_secret(beginning.secret or new_company_secret(), places.secret)
    save_signing_key(key, places.signing_key, beginning.passphrase or None)
    with open_store(places.records, create=True, salts=beginning.salts) as store:
        return begin(store, beginning.company, beginning.signer, key, now)


@contextmanager
def open_company(places: Places, passphrase: str = "", salts: Callable[[], bytes] = new_salt) -> Iterator[Company]:
    """Open a company's records and keys for the length of one job.

    Parameters
    ----------
    places : Places
        Where the company's things lie.
    passphrase : str
        Of the signing key; empty if it has none.
    salts : callable
        Gives the salts of people who are enrolled; random by default.

    Raises
    ------
    Refusal
        If the company has not been set up, or a key cannot be read.
    """
    if not places.records.exists():
        raise not_begun(places.folder)
    with open_store(places.records, salts=salts) as store:
        company = company_of(store)
        if company is None:
            raise not_begun(places.folder)
        secret, key = load_company_secret(places.secret), load_signing_key(places.signing_key, passphrase or None)
        yield Company(places, company.name, store, secret, key)


def not_begun(folder: Path) -> Refusal:
    """Return the refusal of what needs records where there are none."""
    return Refusal(say("jobs.not-begun", folder=folder), say("jobs.not-begun-try", folder=folder))


def name_of(name: str | None) -> str:
    """Return a person's name, or what stands for that of somebody who was erased."""
    return name or say("jobs.erased-person")


def signer_key(company: Company, person_id: str) -> str:
    """Return the key id of an active signer by their person id.

    Raises
    ------
    Refusal
        If the person is no active signer; the text names those who are.
    """
    active = {one.person_id: one.id for one in signers(company.store) if one.retired_at is None}
    wanted = person_id.strip().upper()
    if wanted not in active:
        known = ", ".join(sorted(one for one in active if one))
        raise Refusal(say("jobs.no-signer", person=person_id), say("jobs.no-signer-try", known=known))
    return active[wanted]


def archive_form(company: Company, form: Form, key: Key) -> tuple[bytes, bytes]:
    """Archive a form with its sealed key; returns the bytes of both."""
    data, sealed = form_bytes(form), seal(key_bytes(key), company.secret, form.id)
    write_file(_form_file(company, form.id), data)
    write_file(_key_file(company, form.id), sealed)
    return data, sealed


def archived_form(company: Company, form_id: str) -> Form:
    """Return a form as it was issued.

    Raises
    ------
    Refusal
        If no such form is in the archive, or it is damaged.
    """
    # The number may come from a stranger's file: it is looked up among the names that are there, never made a path.
    names = {path.name for path in company.places.archive.glob("*.form.json")}
    file = _form_file(company, form_id)
    if f"{form_id}.form.json" not in names:
        raise Refusal(say("jobs.no-such-form", form=form_id), say("jobs.no-such-form-try"))
    return form_from_bytes(file.read_bytes())


def archived_key(company: Company, form_id: str) -> Key:
    """Return the key of a form as it was issued.

    Raises
    ------
    Refusal
        If it is missing, damaged, or was sealed with another secret.
    """
    file = _key_file(company, form_id)
    if not file.is_file():
        raise Refusal(say("jobs.no-key", form=form_id), say("jobs.no-key-try"))
    return key_from_bytes(open_sealed(file.read_bytes(), company.secret, form_id))


def _form_file(company: Company, form_id: str) -> Path:
    return company.places.archive / f"{form_id}.form.json"


def _key_file(company: Company, form_id: str) -> Path:
    return company.places.archive / f"{form_id}.key.sealed"
