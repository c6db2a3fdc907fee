import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESSIV

from courseware.content.refusal import Refusal
from courseware.quiz.seal import open_sealed, seal

SECRET = bytes(range(32))


def test_aes_siv_is_the_published_one() -> None:
    """RFC 5297, appendix A.1: the library that seals gives the published ciphertext."""
    key = bytes.fromhex("fffefdfcfbfaf9f8f7f6f5f4f3f2f1f0f0f1f2f3f4f5f6f7f8f9fafbfcfdfeff")
    associated = bytes.fromhex("101112131415161718191a1b1c1d1e1f2021222324252627")
    plain = bytes.fromhex("112233445566778899aabbccddee")
    sealed = bytes.fromhex("85632d07c6e8f37f950acd320a2ecc9340c02b9690c4dc04daef7f6afe5c")
    assert AESSIV(key).encrypt(plain, [associated]) == sealed


def test_what_is_sealed_opens_again_and_the_same_gives_the_same_bytes() -> None:
    sealed = seal(b"the key", SECRET, "F-1")
    assert open_sealed(sealed, SECRET, "F-1") == b"the key"
    assert seal(b"the key", SECRET, "F-1") == sealed
    assert b"the key" not in sealed


def test_every_changed_byte_is_found() -> None:
    sealed = seal(b"the key", SECRET, "F-1")
    for place in range(len(sealed)):
        changed = sealed[:place] + bytes([sealed[place] ^ 1]) + sealed[place + 1 :]
        with pytest.raises(Refusal):
            open_sealed(changed, SECRET, "F-1")
    for length in range(len(sealed)):
        with pytest.raises(Refusal):
            open_sealed(sealed[:length], SECRET, "F-1")


@pytest.mark.parametrize(("secret", "form"), [(SECRET[::-1], "F-1"), (SECRET, "F-2")])
def test_another_secret_or_form_does_not_open_it(secret: bytes, form: str) -> None:
    with pytest.raises(Refusal) as refusal:
        open_sealed(seal(b"the key", SECRET, "F-1"), secret, form)
    assert str(refusal.value) == (
        f"the sealed key of form {form} does not open: it belongs to another form or another company, or was changed; "
        "try: take the key with the same number as the form from the archive, and use your own company's secret"
    )


def test_what_was_never_sealed_is_told_apart() -> None:
    with pytest.raises(Refusal) as refusal:
        open_sealed(b"{}", SECRET, "F-1")
    assert str(refusal.value) == (
        "this is not a sealed key; try: take the sealed key of the form from the archive of issued forms"
    )


def test_a_short_secret_is_refused() -> None:
    with pytest.raises(Refusal):
        seal(b"", b"short", "F-1")
