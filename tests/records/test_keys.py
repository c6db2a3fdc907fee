import os
import stat
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, generate_private_key
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

from courseware.records.errors import KeyFileError
from courseware.records.keys import (
    load_company_secret,
    load_signing_key,
    new_company_secret,
    new_signing_key,
    save_company_secret,
    save_signing_key,
    signature_holds,
    signing_key_from_seed,
)

# RFC 8032, section 7.1, test 1: the empty message (from memory).
RFC_SEED = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
RFC_PUBLIC = bytes.fromhex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")
RFC_SIGNATURE = bytes.fromhex(
    "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"
)


def test_signing_is_that_of_rfc_8032() -> None:
    key = signing_key_from_seed(RFC_SEED)
    assert key.public == RFC_PUBLIC
    assert key.sign(b"") == RFC_SIGNATURE
    assert signature_holds(RFC_PUBLIC, RFC_SIGNATURE, b"")


def test_a_signature_holds_for_its_bytes_and_its_key_alone() -> None:
    assert not signature_holds(RFC_PUBLIC, RFC_SIGNATURE, b"x")
    assert not signature_holds(new_signing_key().public, RFC_SIGNATURE, b"")
    assert not signature_holds(RFC_PUBLIC, RFC_SIGNATURE[:-1], b"")
    assert not signature_holds(b"short", RFC_SIGNATURE, b"")


def test_the_private_half_is_not_shown() -> None:
    assert (
        repr(signing_key_from_seed(RFC_SEED))
        == f"SigningKey(public={RFC_PUBLIC!r}, id='21fe31dfa154a261626bf854046fd227')"
    )


@pytest.mark.parametrize("passphrase", [None, "two words"])
def test_a_key_comes_back_from_its_file(tmp_path: Path, passphrase: str | None) -> None:
    key = new_signing_key()
    save_signing_key(key, tmp_path / "ann.key", passphrase)
    back = load_signing_key(tmp_path / "ann.key", passphrase)
    assert (back.public, back.id) == (key.public, key.id)
    assert signature_holds(key.public, back.sign(b"x"), b"x")
    if os.name == "posix":
        assert stat.S_IMODE((tmp_path / "ann.key").stat().st_mode) == 0o600


def test_a_secret_comes_back_from_its_file(tmp_path: Path) -> None:
    secret = new_company_secret()
    save_company_secret(secret, tmp_path / "secret")
    assert load_company_secret(tmp_path / "secret") == secret
    assert secret != new_company_secret()
    assert len(secret) == 32


def test_a_short_secret_is_our_mistake(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="a secret has 32 bytes, not 5"):
        save_company_secret(b"short", tmp_path / "secret")


def failure(path: Path, passphrase: str | None = None) -> str:
    with pytest.raises(KeyFileError) as raised:
        load_signing_key(path, passphrase)
    return str(raised.value).replace(str(path), "FILE")


def test_a_key_is_never_overwritten(tmp_path: Path) -> None:
    key = new_signing_key()
    save_signing_key(key, tmp_path / "k")
    with pytest.raises(KeyFileError) as raised:
        save_signing_key(new_signing_key(), tmp_path / "k")
    assert str(raised.value).replace(str(tmp_path), "DIR") == (
        "DIR/k exists already, and a key or secret is never overwritten\n"
        "    try: name another file, or move the old one to a safe place first"
    )
    assert load_signing_key(tmp_path / "k").id == key.id


def test_each_failure_of_a_key_file_says_what_to_try(tmp_path: Path) -> None:
    path = tmp_path / "k"
    assert failure(path) == (
        "there is no key or secret at FILE\n"
        "    try: check the name; a key on a stick is there only while the stick is in"
    )  # fmt: skip
    save_signing_key(new_signing_key(), path, "right")
    assert (
        failure(path)
        == "the key in FILE is protected by a passphrase, and none was given\n    try: give the passphrase"
    )
    assert failure(path, "wrong") == (
        "the passphrase does not open the key in FILE\n"
        "    try: type it again; without it the key is lost, and another signer must retire it and add a new one"
    )
    unreadable = (
        "FILE holds no Ed25519 signing key\n"
        "    try: name the file that was written when the key was made, or a copy of it"
    )  # fmt: skip
    path.write_text("not a key")
    assert failure(path) == unreadable
    other = generate_private_key(SECP256R1())
    path.write_bytes(other.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    assert failure(path) == unreadable


@pytest.mark.skipif(os.name != "posix", reason="Windows keeps permissions otherwise")
def test_an_open_key_file_is_refused_unless_a_passphrase_protects_it(tmp_path: Path) -> None:
    key = new_signing_key()
    save_signing_key(key, tmp_path / "open")
    (tmp_path / "open").chmod(0o644)
    assert failure(tmp_path / "open") == "FILE can be read by other users of this computer\n    try: chmod 600 FILE"
    save_signing_key(key, tmp_path / "locked", "pass")
    (tmp_path / "locked").chmod(0o777)
    assert load_signing_key(tmp_path / "locked", "pass").id == key.id


def test_a_passphrase_that_is_not_needed_does_no_harm(tmp_path: Path) -> None:
    key = new_signing_key()
    save_signing_key(key, tmp_path / "k")
    assert load_signing_key(tmp_path / "k", "not needed").id == key.id


def test_a_damaged_secret_is_found(tmp_path: Path) -> None:
    path = tmp_path / "secret"
    save_company_secret(bytes(range(32)), path)
    whole = path.read_bytes()
    for position in range(len(whole) - 1):  # the last byte is the line end
        path.write_bytes(whole[:position] + bytes([whole[position] ^ 1]) + whole[position + 1 :])
        with pytest.raises(KeyFileError) as raised:
            load_company_secret(path)
    assert str(raised.value).replace(str(path), "FILE") == (
        "FILE holds no company secret, or a damaged one\n"
        "    try: put back the copy that was made when the company was set up; do not make a new one: "
        "forms drawn from the old secret could not be drawn again"
    )


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(KeyFileError) as raised:
        save_company_secret(bytes(32), tmp_path / "none" / "secret")
    assert raised.value.key == "key-missing"
    with pytest.raises(KeyFileError) as raised:
        load_company_secret(tmp_path)
    assert raised.value.key == "key-io"
