"""The catalogue and the code agree: every message that is asked for exists with its fields, and every one is asked for.

A message is asked for by ``say("room.key", field=...)`` in a module or a template, by a key put together from parts
(``say(f"room.{part}-title")``), or by its whole name handed on as text.
"""

import ast
import re
import string
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

from courseware.content.words import catalogue, say

PACKAGE = Path(__file__).resolve().parents[2] / "courseware"
ROOMS = sorted(path.stem for path in (PACKAGE / "content" / "words" / "en").glob("*.toml"))
HOLE = "\0"


@dataclass(frozen=True)
class Call:
    """One ``say``: where, the key with holes where it is put together, the fields given; None where they are ``**``."""

    place: str
    key: str
    given: frozenset[str] | None


@dataclass
class Use:
    """All that the code, the templates and the pages' scripts say, and every word they hold."""

    calls: list[Call] = field(default_factory=list)
    constants: set[str] = field(default_factory=set)
    names: set[str] = field(default_factory=set)


@cache
def use() -> Use:
    found = Use()
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(func=ast.Name(id="say") | ast.Attribute(attr="say"), args=[first, *_]):
                    given = (
                        None if any(one.arg is None for one in node.keywords) else {one.arg for one in node.keywords}
                    )
                    place = f"{path.relative_to(PACKAGE.parent).as_posix()}:{node.lineno}"
                    found.calls += calls(place, python_key(first), given)
                case ast.Constant(value=str() as text):
                    found.constants.add(text)
                case ast.Name(id=name) | ast.Attribute(attr=name):
                    found.names.add(name.lower().replace("_", "-"))
    for path in sorted(PACKAGE.rglob("*.j2")):
        tree = jinja2.Environment(autoescape=True).parse(path.read_text(encoding="utf-8"))
        found.constants |= {node.value for node in tree.find_all(nodes.Const) if isinstance(node.value, str)}
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Name) and call.node.name == "say":
                given = {one.key for one in call.kwargs} if call.dyn_kwargs is None else None
                place = f"{path.relative_to(PACKAGE.parent).as_posix()}:{call.lineno}"
                found.calls += calls(place, template_key(call.args[0]), given)
    for path in sorted(PACKAGE.rglob("*.js")):
        found.constants |= set(re.findall(r"[\"'`]([a-z][a-z0-9-]*)[\"'`]", path.read_text(encoding="utf-8")))
    return found


def calls(place: str, keys: Iterator[str], given: set[str | None] | set[str] | None) -> list[Call]:
    fields = None if given is None else frozenset(str(one) for one in given)
    return [Call(place, key, fields) for key in keys]


def python_key(node: ast.expr) -> Iterator[str]:
    """Yield the key as text with holes; both arms of a choice; nothing for a variable."""
    match node:
        case ast.Constant(value=str() as text):
            yield text
        case ast.JoinedStr(values=parts):
            yield "".join(str(part.value) if isinstance(part, ast.Constant) else HOLE for part in parts)
        case ast.IfExp(body=body, orelse=orelse):
            yield from python_key(body)
            yield from python_key(orelse)


def template_key(node: nodes.Node) -> Iterator[str]:
    match node:
        case nodes.Const(value=str() as text):
            yield text
        case nodes.Concat(nodes=parts):
            yield "".join(str(part.value) if isinstance(part, nodes.Const) else HOLE for part in parts)
        case nodes.CondExpr(expr1=body, expr2=orelse):
            yield from template_key(body)
            if orelse is not None:
                yield from template_key(orelse)


def holes_filled(key: str, pattern: str) -> list[str] | None:
    """Return what fills the holes if the key is of the pattern; holes side by side count as one."""
    parts = re.split(f"{HOLE}+", pattern)
    match = re.fullmatch("(.*)".join(re.escape(part) for part in parts), key)
    return None if match is None else list(match.groups())


def is_open(pattern: str) -> bool:
    """Say whether the pattern is any message of a room at all, so that nothing can be said about its fields."""
    return re.fullmatch(rf"[a-z_]+\.{HOLE}+", pattern) is not None


def fields_of(message: str) -> frozenset[str]:
    return frozenset(name for _, name, _, _ in string.Formatter().parse(message) if name is not None)


@cache
def messages() -> dict[str, str]:
    return {f"{room}.{key}": text for room in ROOMS for key, text in catalogue(room).items()}


def test_there_is_something_to_compare() -> None:
    assert len(messages()) > 80
    assert len(use().calls) > 80
    assert {"cli", "content", "jobs"} <= set(ROOMS)


def test_every_message_that_is_asked_for_exists() -> None:
    unknown = [
        f"{call.place}: {call.key.replace(HOLE, '{}')}"
        for call in use().calls
        if not any(holes_filled(key, call.key) is not None for key in messages())
    ]
    assert "\n".join(unknown) == ""


def test_every_field_of_a_message_is_given() -> None:
    exact = {call.key for call in use().calls}
    lacking = [
        f"{call.place}: {key} lacks {', '.join(sorted(missing))}"
        for call in use().calls
        if call.given is not None and not is_open(call.key)
        for key, text in messages().items()
        if (key == call.key or (key not in exact and holes_filled(key, call.key) is not None))
        and (missing := fields_of(text) - call.given)
    ]
    assert "\n".join(lacking) == ""


def is_used(key: str) -> bool:
    known = use()
    if key in known.constants:
        return True
    fillings = [filled for call in known.calls if HOLE in call.key and (filled := holes_filled(key, call.key))]
    return any(all(is_known(part) for part in filled) for filled in fillings)


def is_known(text: str) -> bool:
    """Say whether the code or a template holds the text, its prefix and its rest, or each of its hyphenated words."""
    held = use().constants | use().names
    words = text.strip("-").split("-")
    return (
        "-".join(words) in held
        or any("-".join([*words[:cut], ""]) in held and "-".join(words[cut:]) in held for cut in range(1, len(words)))
        or all(word in held for word in words)
    )


def test_every_message_is_asked_for() -> None:
    assert "\n".join(key for key in messages() if not is_used(key)) == ""


@pytest.mark.parametrize("room", ROOMS)
def test_fields_of_messages_are_plain_names(room: str) -> None:
    for key, text in catalogue(room).items():
        assert all(name.isidentifier() for name in fields_of(text)), f"{room}.{key}"


def test_a_message_is_filled_in() -> None:
    assert say("content.out-of-range", key="minutes", found=99) == "'minutes' is 99"


def test_an_unknown_message_or_a_missing_value_is_an_error_of_ours() -> None:
    with pytest.raises(KeyError):
        say("content.no-such-message")
    with pytest.raises(KeyError):
        say("content.out-of-range", key="minutes")


def test_a_copy_of_the_catalogue_is_nobodys_to_change() -> None:
    catalogue("content")["out-of-range"] = "changed"
    assert catalogue("content")["out-of-range"] == "'{key}' is {found}"
