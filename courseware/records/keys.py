"""The company's secret and its signers' keys: made from the system's randomness, kept in files of their own.

A signing key is Ed25519 (RFC 8032) in PKCS #8 PEM (RFC 5958, RFC 8410), with a passphrase if one is given.
The secret is 256 random bits from which quiz forms are drawn. Neither is ever put into the store: whoever copies
the records can check them, but cannot add to them.
"""

import hashlib
import os
import re
import secrets
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import (
    BestAvailableEncryption,
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from courseware.records.errors import KeyFileError

SECRET_BYTES: Final = 32
_SECRET_LINE: Final = re.compile(r"courseware-secret/1 ([0-9a-f]{64}) ([0-9a-f]{8})\s*")


@dataclass(frozen=True, slots=True)
class SigningKey:
    """A signer's key: it signs, and it never shows its private half.

    Attributes
    ----------
    public : bytes
        The public half, 32 bytes (RFC 8032).
    id : str
        Name of the key in every event that it signs, see :func:`key_id`.
    """

    _private: Ed25519PrivateKey = field(repr=False)
    public: bytes
    id: str

    def sign(self, data: bytes) -> bytes:
        """Return the 64-byte signature."""
        return self._private.sign(data)


def key_id(public: bytes) -> str:
    """Return the name of a key: the first 128 bits of the SHA-256 of its public half, in hexadecimal."""
    return hashlib.sha256(public).hexdigest()[:32]


def signature_holds(public: bytes, signature: bytes, data: bytes) -> bool:
    """Say whether a signature is that of the key's owner over exactly these bytes."""
    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, data)
    except (InvalidSignature, ValueError):
        return False
    return True


def new_signing_key() -> SigningKey:
    """Return a new key from the system's randomness."""
    return _wrap(Ed25519PrivateKey.generate())


def signing_key_from_seed(seed: bytes) -> SigningKey:
    """Return the key of a 32-byte seed (the private key of RFC 8032); for demonstrations that repeat byte for byte."""
    return _wrap(Ed25519PrivateKey.from_private_bytes(seed))


def _wrap(private: Ed25519PrivateKey) -> SigningKey:
    public = private.public_key().public_bytes_raw()
    return SigningKey(private, public, key_id(public))


def save_signing_key(key: SigningKey, path: Path, passphrase: str | None = None) -> None:
    """Write a key to a new file that only its owner can read.

    Raises
    ------
    KeyFileError
        If a file of that name exists (a key is never overwritten), or the folder cannot be written.
    """
    encryption = BestAvailableEncryption(passphrase.encode("utf-8")) if passphrase else NoEncryption()
    _write_new(path, key._private.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, encryption))  # noqa: SLF001 - the only place the private half leaves memory


def load_signing_key(path: Path, passphrase: str | None = None) -> SigningKey:
    """Read a key.

    Raises
    ------
    KeyFileError
        If the file is missing, is no Ed25519 key, needs a passphrase or another one, or, being without a
        passphrase, can be read by others.
    """
    data = _read(path)
    locked = b"ENCRYPTED" in data
    if locked and not passphrase:
        raise KeyFileError("key-locked", path=path)
    try:
        private = load_pem_private_key(data, passphrase.encode("utf-8") if locked and passphrase else None)
    except (ValueError, TypeError) as error:
        raise KeyFileError("key-wrong-passphrase" if locked else "key-unreadable", path=path) from error
    if not isinstance(private, Ed25519PrivateKey):
        raise KeyFileError("key-unreadable", path=path)
    if not locked:
        _refuse_open_file(path)  # a passphrase protects the key even on a stick that knows no permissions
    return _wrap(private)


def new_company_secret() -> bytes:
    """Return 32 random bytes."""
    return secrets.token_bytes(SECRET_BYTES)


def save_company_secret(secret: bytes, path: Path) -> None:
    """Write the secret to a new file that only its owner can read; errors as in :func:`save_signing_key`."""
    if len(secret) != SECRET_BYTES:
        raise ValueError(f"a secret has {SECRET_BYTES} bytes, not {len(secret)}")
    _write_new(path, f"courseware-secret/1 {secret.hex()} {_check(secret)}\n".encode("ascii"))


def load_company_secret(path: Path) -> bytes:
    """Read the secret.

    Raises
    ------
    KeyFileError
        If the file is missing, damaged (it carries a checksum), or can be read by others.
    """
    line = _SECRET_LINE.fullmatch(_read(path).decode("utf-8", "replace"))
    if line is None or _check(bytes.fromhex(line[1])) != line[2]:
        raise KeyFileError("secret-damaged", path=path)
    _refuse_open_file(path)
    return bytes.fromhex(line[1])


def _check(secret: bytes) -> str:
    return hashlib.sha256(secret).hexdigest()[:8]


def _read(path: Path) -> bytes:
    with _told(path):
        return path.read_bytes()


def _write_new(path: Path, data: bytes) -> None:
    with _told(path):
        # Exclusive and private from the first moment: no window in which another user can open it.
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """Tell what the system says about a file in our words."""
    try:
        yield
    except FileExistsError as error:
        raise KeyFileError("key-exists", path=path) from error
    except FileNotFoundError as error:
        raise KeyFileError("key-missing", path=path) from error
    except OSError as error:
        raise KeyFileError("key-io", path=path, reason=error.strerror) from error


def _refuse_open_file(path: Path) -> None:
    if os.name == "posix" and stat.S_IMODE(path.stat().st_mode) & 0o077:
        raise KeyFileError("key-open", path=path)
