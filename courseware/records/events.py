"""An event and its seal: what is hashed, what is signed, and the check of both.

Each event's hash covers its predecessor's hash and its own canonical text, number, moment, kind and
signer included; the signer's key signs the hash. So nothing can be changed, left out, put in or moved
without another hash, and no other hash can be signed without a signer's key. Nothing here
touches a file: bytes go in, and only a verified :class:`Event` comes out.
"""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from courseware.content.canonical import canonical, read_canonical
from courseware.records.errors import BadEventError
from courseware.records.keys import SigningKey, signature_holds
from courseware.records.moments import is_stamp

EVENT_FORMAT: Final = "courseware/event/1"
GENESIS: Final = bytes(32)
"""What stands for a hash before the first event: 32 zero bytes."""


@dataclass(frozen=True, slots=True)
class Head:
    """The end of a chain: saved outside the store, it shows later that nothing was cut off.

    Attributes
    ----------
    seq : int
        Number [-] of the last event; 0 if there is none.
    hash : bytes
        Its hash, 32 bytes.
    """

    seq: int
    hash: bytes


@dataclass(frozen=True, slots=True)
class Event:
    """One entry of the record.

    Attributes
    ----------
    seq : int
        Its number [-], from 1, without gaps.
    at : str
        When it was written, UTC to the second.
    kind : str
        What it says, see :data:`courseware.records.kinds.EVENT_KINDS`.
    signer : str
        The id of the key that signed it.
    body : mapping
        What happened; its fields depend on the kind.
    """

    seq: int
    at: str
    kind: str
    signer: str
    body: Mapping[str, Any]

    def content(self) -> bytes:
        """Return the text that is hashed."""
        return canonical(
            {
                "at": self.at,
                "body": dict(self.body),
                "format": EVENT_FORMAT,
                "kind": self.kind,
                "seq": self.seq,
                "signer": self.signer,
            }
        )


@dataclass(frozen=True, slots=True)
class Sealed:
    """An event as it is stored or received: not believed before :func:`unseal`.

    The values may be of any type: a damaged file holds what it holds.
    """

    seq: Any
    at: Any
    kind: Any
    signer: Any
    body: Any
    prev_hash: Any
    hash: Any
    signature: Any


def chain_hash(prev_hash: bytes, content: bytes) -> bytes:
    """Return SHA-256 of the predecessor's hash followed by the content, 32 bytes.

    Examples
    --------
    Recomputed with ``sha256sum``, no published source:

    >>> chain_hash(GENESIS, b'{"event":"issued","seq":1,"who":"T-001"}').hex()
    '08e90db5e356a51921dc393db6e200b5d0ad3731be7c24030b2470af3f99607f'
    """
    return hashlib.sha256(prev_hash + content).digest()


def seal(event: Event, prev_hash: bytes, key: SigningKey) -> Sealed:
    """Return the event hashed onto its predecessor and signed."""
    digest = chain_hash(prev_hash, event.content())
    return Sealed(
        event.seq, event.at, event.kind, event.signer, canonical(dict(event.body)), prev_hash, digest, key.sign(digest)
    )


def unseal(sealed: Sealed, before: Head, public_key_of: Callable[[Event], bytes | None]) -> Event:
    """Return the event that was signed.

    Parameters
    ----------
    sealed : Sealed
        As stored or received.
    before : Head
        The verified end of the chain so far.
    public_key_of : callable
        Gives the public key of the event's signer, or none if no registered signer has that id.

    Raises
    ------
    BadEventError
        If anything differs from what was signed. The text says what: the hash, the signature and the link
        check one another, so that the one which was changed can be told from the rest.
    """
    seq = before.seq + 1
    if sealed.seq != seq:
        raise BadEventError(seq, "event-missing", found=sealed.seq)
    event = _read(sealed, seq)
    public = public_key_of(event)
    digest = chain_hash(before.hash, event.content())
    if public is None:
        raise BadEventError(seq, "event-unregistered", signer=event.signer)
    if sealed.hash == digest and sealed.prev_hash == before.hash:
        if signature_holds(public, sealed.signature, digest):
            return event
        raise BadEventError(seq, "event-forged", signer=event.signer)
    if not signature_holds(public, sealed.signature, digest):
        raise BadEventError(seq, "event-altered")
    # The signature vouches for the content in this place, so it is a stored hash that was changed.
    raise BadEventError(seq, "event-hash" if sealed.hash != digest else "event-link")


def _read(sealed: Sealed, seq: int) -> Event:
    """Return the event a row claims to be, if its values can be one at all."""
    if not is_stamp(sealed.at):
        raise BadEventError(seq, "event-no-moment", found=repr(sealed.at))
    for name, size in (("prev_hash", 32), ("hash", 32), ("signature", 64)):
        value = getattr(sealed, name)
        if not isinstance(value, bytes) or len(value) != size:
            raise BadEventError(seq, "event-wrong-size", column=name, size=size)
    for name in ("kind", "signer"):
        value = getattr(sealed, name)
        if not isinstance(value, str) or not value.isascii():
            raise BadEventError(seq, "event-no-text", column=name, found=repr(value))
    try:
        body = read_canonical(sealed.body)
    except (ValueError, AttributeError, RecursionError) as error:
        raise BadEventError(seq, "event-unreadable") from error
    if not isinstance(body, dict):
        raise BadEventError(seq, "event-unreadable")
    return Event(seq, sealed.at, sealed.kind, sealed.signer, body)
