import re

import pytest

from courseware.records.errors import EntryRefusedError
from courseware.records.identity import clean_email, clean_name, identity_of, new_person, new_salt, ref_of

SALT = bytes(range(32))


def test_a_reference_is_hmac_sha256() -> None:
    # RFC 4231, section 4.3, test case 2: the key "Jefe".
    assert ref_of(b"Jefe", "what do ya want for nothing?") == (
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    )


def test_references_differ_by_salt_and_by_id() -> None:
    found = {ref_of(salt, person) for salt in (SALT, new_salt()) for person in ("T-0001", "T-0002")}
    assert len(found) == 4


def test_the_commitment_changes_with_name_and_email_and_salt() -> None:
    found = {
        identity_of(SALT, "Jo", "jo@example.com"),
        identity_of(SALT, "Joe", "jo@example.com"),
        identity_of(SALT, "Jo", "joe@example.com"),
        identity_of(SALT, "Jo", None),
        identity_of(new_salt(), "Jo", "jo@example.com"),
    }
    assert len(found) == 5


def test_the_salt_is_not_shown() -> None:
    person = new_person(7, "Jo Okafor", "Jo@Example.com", SALT)
    assert repr(person) == f"Person(id='T-0007', name='Jo Okafor', email='jo@example.com', ref='{person.ref}')"


def test_a_salt_of_another_length_is_our_mistake() -> None:
    with pytest.raises(ValueError, match="a salt has 32 bytes, not 3"):
        new_person(1, "Jo", None, b"abc")


def test_a_name_is_put_in_order() -> None:
    assert clean_name("  Jo \t Okafør ") == "Jo Okafør"


@pytest.mark.parametrize("name", ["", "   ", "J" * 121, "Jo\x00"])
def test_what_is_no_name_is_refused(name: str) -> None:
    message = (
        f"'{name}' is no name to print: "
        "it is empty, longer than 120 characters, or holds characters that do not print\n"
        "    try: give the name as it is to stand on the certificate"
    )
    with pytest.raises(EntryRefusedError, match=f"^{re.escape(message)}$"):
        clean_name(name)


@pytest.mark.parametrize("email", ["", "jo", "@example.com", "jo@", "a@b@c", "jo lund@example.com", "jo\x07@x.com"])
def test_what_is_no_email_is_refused(email: str) -> None:
    message = f"'{email}' is no e-mail address\n    try: give an address such as pat.doe@example.com"
    with pytest.raises(EntryRefusedError, match=f"^{re.escape(message)}$"):
        clean_email(email)
