import dataclasses
import json
from collections.abc import Callable

import pytest

from courseware.quiz.form import (
    Form,
    FormError,
    Key,
    form_bytes,
    form_from_bytes,
    form_sha256,
    key_bytes,
    key_from_bytes,
)


def test_reading_and_writing_back_changes_no_byte(form: Form, key: Key) -> None:
    assert form_from_bytes(form_bytes(form)) == form
    assert key_from_bytes(key_bytes(key)) == key
    assert form_bytes(form_from_bytes(form_bytes(form))) == form_bytes(form)


def test_the_bytes_are_sorted_utf8_without_spaces(form: Form) -> None:
    data = form_bytes(dataclasses.replace(form, title="Zündung ½ in"))
    assert "Zündung ½ in".encode() in data
    assert data.startswith(b'{"blueprint":"ignition","course_version":"1","format":"courseware/form/1","id":')
    assert data == json.dumps(json.loads(data), sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()


def test_a_form_holds_what_a_trainee_may_see_and_nothing_else(form: Form) -> None:
    names = {field.name for item in form.items for field in dataclasses.fields(item)}
    assert names == {"number", "kind", "objective", "stem", "exhibit", "options", "unit", "minutes"}
    assert {field.name for field in dataclasses.fields(form)} == {
        "id", "blueprint", "title", "course_version", "items", "instructions", "format",
    }  # fmt: skip
    assert {field.name for item in form.items for o in item.options for field in dataclasses.fields(o)} == {
        "tag",
        "text",
    }


@pytest.mark.parametrize(
    "change",
    [
        lambda data: data[:-1],
        lambda data: data + b"\n",
        lambda data: b" " + data,
        lambda data: data.replace(b"courseware/form/1", b"courseware/form/2"),
        lambda data: data.replace(b'"unit":""', b'"units":""', 1),
        lambda data: data.replace(b'"items":[', b'"items":[7,', 1),
        lambda _: b"",
        lambda _: b"\xff",
        lambda _: b"[]",
        lambda _: b"null",
        lambda _: b"{}",
    ],
)
def test_other_bytes_are_no_form(form: Form, change: Callable[[bytes], bytes]) -> None:
    with pytest.raises(FormError) as refusal:
        form_from_bytes(change(form_bytes(form)))
    assert str(refusal.value) == (
        "this is not a form of this program, or it was changed after it was issued; "
        "try: take it from the archive of issued forms again"
    )


@pytest.mark.parametrize("data", [b"", b"{}", b"[]", b'{"format":"courseware/key/2"}'])
def test_other_bytes_are_no_key(data: bytes) -> None:
    with pytest.raises(FormError) as refusal:
        key_from_bytes(data)
    assert str(refusal.value) == (
        "this is not a key of this program, or it was changed after it was sealed; "
        "try: take it from the archive of issued forms again"
    )


def test_a_form_is_known_by_its_hash(form: Form) -> None:
    assert form_sha256(form) != form_sha256(dataclasses.replace(form, title="Ignition test."))
    assert len(form_sha256(form)) == 64
