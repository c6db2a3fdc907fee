"""A person's identity: what the people table holds, and the two digests by which the chain knows them.

``ref`` names the person in every event: HMAC-SHA256 (RFC 2104) of the person's id under a random salt. ``identity``
commits to name and e-mail the same way, so that a changed name is found. The salt is deleted with
the person; without it neither digest can be traced to anybody or be guessed at.
"""

import hashlib
import hmac
import secrets
from dataclasses import dataclass, field
from typing import Final

from courseware.content.canonical import canonical
from courseware.records.errors import EntryRefusedError
from courseware.records.tables import PersonRow

SALT_BYTES: Final = 32
LONGEST_NAME: Final = 120


@dataclass(frozen=True, slots=True)
class Person:
    """A person, as the office knows them.

    Attributes
    ----------
    id : str
        Such as ``T-0001``; never used twice.
    name : str
        As printed on certificates.
    email : str or None
        Lower case; a signer may have none.
    ref : str
        What the events call them, 64 hexadecimal digits.
    """

    id: str
    name: str
    email: str | None
    ref: str
    _salt: bytes = field(repr=False)

    def identity(self) -> str:
        """Return the digest that commits to name and e-mail, 64 hexadecimal digits."""
        return identity_of(self._salt, self.name, self.email)

    def row(self) -> PersonRow:
        """Return the row that holds the person."""
        return PersonRow(id=self.id, ref=self.ref, name=self.name, email=self.email, salt=self._salt)


def new_salt() -> bytes:
    """Return 32 random bytes."""
    return secrets.token_bytes(SALT_BYTES)


def new_person(number: int, name: str, email: str | None, salt: bytes) -> Person:
    """Return a person to be enrolled.

    Parameters
    ----------
    number : int
        How many people were enrolled before, plus one [-].
    name, email : str
        As given.
    salt : bytes
        32 bytes that nobody can guess.

    Raises
    ------
    EntryRefusedError
        If the name is empty or too long, or the e-mail is none.
    """
    if len(salt) != SALT_BYTES:
        raise ValueError(f"a salt has {SALT_BYTES} bytes, not {len(salt)}")
    person_id = f"T-{number:04d}"
    return Person(person_id, clean_name(name), clean_email(email), ref_of(salt, person_id), salt)


def person_of(row: PersonRow) -> Person:
    """Return the person that a row holds."""
    return Person(row.id, row.name, row.email, row.ref, row.salt)


def ref_of(salt: bytes, person_id: str) -> str:
    """Return what the events call a person: HMAC-SHA256 of their id under their salt, 64 hexadecimal digits."""
    return hmac.new(salt, person_id.encode("utf-8"), hashlib.sha256).hexdigest()


def identity_of(salt: bytes, name: str, email: str | None) -> str:
    """Return the digest that commits to name and e-mail, 64 hexadecimal digits."""
    return hmac.new(salt, canonical({"email": email, "name": name}), hashlib.sha256).hexdigest()


def clean_name(name: str) -> str:
    """Return a name with its spaces in order, or refuse it."""
    clean = " ".join(name.split())
    if not clean or len(clean) > LONGEST_NAME or not clean.isprintable():
        raise EntryRefusedError("bad-name", name=name, longest=LONGEST_NAME)
    return clean


def clean_email(email: str | None) -> str | None:
    """Return an e-mail in lower case, or refuse it; no more is asked of it than one @ with something around it."""
    if email is None:
        return None
    clean = email.strip().casefold()
    local, at, domain = clean.partition("@")
    if not (local and at and domain) or "@" in domain or not clean.isprintable() or " " in clean:
        raise EntryRefusedError("bad-email", email=email)
    return clean
