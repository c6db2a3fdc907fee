import dataclasses
import json
from collections.abc import Callable

import pytest

from courseware.grading.mark import grade
from courseware.quiz.form import (
    Belief,
    Form,
    FormError,
    Key,
    form_bytes,
    form_from_bytes,
    form_sha256,
    key_bytes,
    key_from_bytes,
)
from courseware.quiz.response import make_response

OLD_FIELDS = (
    "number", "kind", "objective", "template", "points", "right", "because", "lesson", "feedback", "pairs", "gates",
)  # fmt: skip


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


def old_bytes(key: Key) -> bytes:
    """Return a key as the first format wrote it: built from the fields that it had, by json alone."""
    raw = {**dataclasses.asdict(key), "format": "courseware/key/1"}
    raw["entries"] = [{name: entry[name] for name in OLD_FIELDS} for entry in raw["entries"]]
    return json.dumps(raw, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()


def test_an_archived_key_of_the_first_format_is_read_and_stays_as_it_is(form: Form, key: Key) -> None:
    data = old_bytes(key)
    old = key_from_bytes(data)
    assert key_bytes(old) == data
    assert dataclasses.replace(old, format=key.format) == key
    answers: dict[str, tuple[str, ...]] = {"1": ("1ZK",), "2": ("8.33",), "3": ("9G4",), "4": ("C0C", "D5E", "F7J")}
    result = grade(form, old, make_response(form.id, answers))
    assert (result.points, result.marks[0].beliefs) == (4.0, ())


def test_a_misconception_is_kept_with_its_words(key: Key) -> None:
    belief = Belief("symptom-is-the-fault", "It is always that.", "Many faults sound alike.", "ignition#output")
    entry = dataclasses.replace(key.entries[0], misconceptions={"1ZK": belief})
    named = dataclasses.replace(key, entries=(entry, *key.entries[1:]))
    assert key_from_bytes(key_bytes(named)) == named
    assert b'"misconceptions":{"1ZK":{"believes":"It is always that.","id":"symptom-is-the-fault"' in key_bytes(named)


@pytest.mark.parametrize(
    "change",
    [
        lambda key: key_bytes(key).replace(b"courseware/key/2", b"courseware/key/1"),
        lambda key: old_bytes(key).replace(b"courseware/key/1", b"courseware/key/2"),
        lambda key: old_bytes(key).replace(b"courseware/key/1", b"courseware/key/3"),
    ],
)
def test_a_key_has_just_what_its_format_has(change: Callable[[Key], bytes], key: Key) -> None:
    with pytest.raises(FormError):
        key_from_bytes(change(key))


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
