"""Keys sealed with authenticated encryption, so that an archive of them gives nothing away and bears no change.

AES-SIV (RFC 5297) with a key made from the company's secret by HKDF-SHA256 (RFC 5869). AES-SIV needs no nonce:
the same key sealed twice gives the same bytes, so that issuing a form again can be compared byte for byte.
"""

from typing import Final

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESSIV
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.quiz.chance import SHORTEST_SECRET

_HEADER: Final = b"courseware/sealed/1\n"
_KEY_LENGTH: Final = 64  # two AES-256 keys


def seal(data: bytes, secret: bytes, form_id: str) -> bytes:
    """Return the data sealed for one form.

    Parameters
    ----------
    data : bytes
        What to seal: the bytes of a key.
    secret : bytes
        The company's secret, at least 32 bytes.
    form_id : str
        The form it belongs to; under another form's number it will not open.

    Raises
    ------
    Refusal
        If the secret is too short to be one.
    """
    return _HEADER + _cipher(secret).encrypt(data, [_HEADER, form_id.encode("utf-8")])


def open_sealed(sealed: bytes, secret: bytes, form_id: str) -> bytes:
    """Return what was sealed.

    Raises
    ------
    Refusal
        If it was sealed with another secret or for another form, or was changed since.
    """
    if not sealed.startswith(_HEADER):
        raise Refusal(say("quiz.not-sealed"), say("quiz.not-sealed-try"))
    try:
        return _cipher(secret).decrypt(sealed[len(_HEADER) :], [_HEADER, form_id.encode("utf-8")])
    except (InvalidTag, ValueError) as error:
        raise Refusal(say("quiz.seal-broken", form=form_id), say("quiz.seal-broken-try")) from error


def _cipher(secret: bytes) -> AESSIV:
    if len(secret) < SHORTEST_SECRET:
        raise Refusal(say("quiz.short-secret", size=len(secret), least=SHORTEST_SECRET), say("quiz.short-secret-try"))
    derive = HKDF(algorithm=SHA256(), length=_KEY_LENGTH, salt=None, info=b"courseware/seal/1")
    return AESSIV(derive.derive(secret))
