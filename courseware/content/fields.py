"""Typed getters over one mapping of the tree: the classes stay clean, the checking is here.

A loader opens a :class:`Fields` over a node, asks for each key once, and calls
:meth:`Fields.finish`, which reports every key that nobody asked for. A getter that finds a fault
records it and returns a stand-in of the right type, so that one run reports every fault;
no job uses what was loaded before :meth:`Problems.raise_if_any` has passed.
"""

import re
from collections.abc import Collection, Iterator, Mapping as MappingType
from typing import Final

from courseware.content.problems import Problems, listed, nearest
from courseware.content.source import Source
from courseware.content.tree import Mapping, Node, Scalar, Sequence
from courseware.content.words import say

ID_PATTERN: Final = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def describe(node: Node) -> str:
    """Return what a node is, in words, for a message."""
    if isinstance(node, Mapping):
        return say("content.a-mapping")
    if isinstance(node, Sequence):
        return say("content.a-list")
    if node.value is None:
        return say("content.nothing")
    if isinstance(node.value, bool):
        return say("content.is-flag", value=str(node.value).lower())
    if isinstance(node.value, str):
        return say("content.is-text", value=node.value)
    return say("content.is-number", value=node.value)


class Fields:
    """One mapping being read.

    Parameters
    ----------
    node : Node
        The node to read; anything but a mapping is a problem, and then every getter returns a stand-in.
    where : str
        What the mapping is, by id, for messages.
    problems : Problems
        Receives every fault found.
    """

    def __init__(self, node: Node, where: str, problems: Problems) -> None:
        self.where = where
        self.problems = problems
        self.source = node.source
        self._asked: set[str] = set()
        self._broken = not isinstance(node, Mapping)
        self._node = node if isinstance(node, Mapping) else Mapping({}, {}, node.source)
        if self._broken:
            self.fault(node.source, describe(node), say("content.a-mapping"))

    def fault(self, source: Source, found: str, allowed: str = "", advice: str = "") -> None:
        """Record a fault inside this mapping."""
        self.problems.add(source, self.where, found, allowed, advice)

    def has(self, key: str) -> bool:
        """Say whether the mapping has the key."""
        return key in self._node.entries

    def source_of(self, key: str) -> Source:
        """Return where the key was written, or where the mapping starts if it was not."""
        return self._node.keys.get(key, self.source)

    def node(self, key: str, *, required: bool = True) -> Node | None:
        """Return the raw node under the key, or None; a required key that is missing is a problem."""
        self._asked.add(key)
        found = self._node.entries.get(key)
        if found is None and required and not self._broken:
            self.fault(self.source, say("content.missing-key", key=key), advice=say("content.missing-key-try", key=key))
        return found

    def _scalar(self, key: str, kinds: tuple[type, ...], allowed: str, *, required: bool) -> Scalar | None:
        node = self.node(key, required=required)
        if node is None:
            return None
        right = isinstance(node, Scalar) and isinstance(node.value, kinds)
        if right and isinstance(node.value, bool) and bool not in kinds:
            right = False  # bool is an int in Python, not in a technician's file
        if not right:
            self.fault(node.source, say("content.wrong-type", key=key, found=describe(node)), allowed)
            return None
        assert isinstance(node, Scalar)
        return node

    def text(self, key: str, default: str | None = None) -> str:
        """Return text; required unless a default is given."""
        node = self._scalar(key, (str,), say("content.a-text"), required=default is None)
        if node is None:
            return default or ""
        text = str(node.value).strip()
        if not text:
            self.fault(node.source, say("content.empty-text", key=key), say("content.a-text"))
        return text

    def identifier(self, key: str = "id") -> str:
        """Return a required id: lower-case words joined by hyphens."""
        text = self.text(key)
        if text and not ID_PATTERN.fullmatch(text):
            self.fault(self._value_source(key), say("content.bad-id", key=key, found=text), say("content.bad-id-allowed"))
        return text

    def number(
        self, key: str, default: float | None = None, *, low: float | None = None, high: float | None = None
    ) -> float:
        """Return a number, held to the range [low, high] if one is given."""
        node = self._scalar(key, (int, float), say("content.a-number"), required=default is None)
        if node is None:
            return default if default is not None else 0.0
        assert isinstance(node.value, int | float)
        self._hold_range(key, node, node.value, low, high)
        return float(node.value)

    def integer(
        self, key: str, default: int | None = None, *, low: int | None = None, high: int | None = None
    ) -> int:
        """Return a whole number, held to the range [low, high] if one is given."""
        node = self._scalar(key, (int,), say("content.a-whole-number"), required=default is None)
        if node is None:
            return default if default is not None else 0
        assert isinstance(node.value, int)
        self._hold_range(key, node, node.value, low, high)
        return node.value

    def _hold_range(self, key: str, node: Scalar, value: float, low: float | None, high: float | None) -> None:
        if (low is None or value >= low) and (high is None or value <= high):
            return
        if low is not None and high is not None:
            allowed = say("content.range-between", low=low, high=high)
        elif low is not None:
            allowed = say("content.range-from", low=low)
        else:
            allowed = say("content.range-to", high=high)
        self.fault(node.source, say("content.out-of-range", key=key, found=value), allowed)

    def flag(self, key: str, default: bool | None = None) -> bool:
        """Return true or false; required unless a default is given."""
        node = self._scalar(key, (bool,), say("content.a-flag"), required=default is None)
        return bool(node.value) if node is not None else bool(default)

    def choice(self, key: str, allowed: Collection[str], default: str | None = None) -> str:
        """Return one of the allowed words."""
        text = self.text(key, default)
        if text and text not in allowed:
            self.fault(
                self._value_source(key), say("content.wrong-choice", key=key, found=text), listed(allowed),
                nearest(text, allowed),
            )  # fmt: skip
        return text

    def reference(self, key: str, kind: str, known: Collection[str], default: str | None = None) -> str:
        """Return the id of an existing thing; ``kind`` names what it is in the message."""
        text = self.text(key, default)
        if text and text != default:
            self.refer(self._value_source(key), key, kind, text, known)
        return text

    def refer(self, source: Source, key: str, kind: str, found: str, known: Collection[str]) -> None:
        """Record a dangling reference, if ``found`` is not among the known ids."""
        if found not in known:
            self.fault(
                source, say("content.unknown-reference", key=key, kind=kind, found=found), listed(known),
                nearest(found, known),
            )  # fmt: skip

    def _value_source(self, key: str) -> Source:
        node = self._node.entries.get(key)
        return node.source if node is not None else self.source

    def items(self, key: str, *, required: bool = True) -> tuple[Node, ...]:
        """Return the nodes of a list; a required list must not be empty."""
        node = self.node(key, required=required)
        if node is None:
            return ()
        if not isinstance(node, Sequence):
            self.fault(node.source, say("content.wrong-type", key=key, found=describe(node)), say("content.a-list"))
            return ()
        if not node.items and required:
            self.fault(node.source, say("content.empty-list", key=key), say("content.empty-list-allowed"))
        return node.items

    def texts(self, key: str, *, required: bool = True) -> tuple[str, ...]:
        """Return a list of texts."""
        return tuple(text for text, _ in self.located_texts(key, required=required))

    def located_texts(self, key: str, *, required: bool = True) -> tuple[tuple[str, Source], ...]:
        """Return a list of texts, each with its place."""
        found = []
        for item in self.items(key, required=required):
            if isinstance(item, Scalar) and isinstance(item.value, str):
                found.append((item.value, item.source))
            else:
                self.fault(item.source, say("content.wrong-type", key=key, found=describe(item)), say("content.a-text"))
        return tuple(found)

    def references(self, key: str, kind: str, known: Collection[str], *, required: bool = True) -> tuple[str, ...]:
        """Return a list of ids of existing things."""
        found = self.located_texts(key, required=required)
        for text, source in found:
            self.refer(source, key, kind, text, known)
        return tuple(text for text, _ in found)

    def numbers(self, key: str, *, required: bool = True) -> tuple[float, ...]:
        """Return a list of numbers."""
        found = []
        for item in self.items(key, required=required):
            if isinstance(item, Scalar) and isinstance(item.value, int | float) and not isinstance(item.value, bool):
                found.append(float(item.value))
            else:
                self.fault(item.source, say("content.wrong-type", key=key, found=describe(item)), say("content.a-number"))
        return tuple(found)

    def child(self, key: str, where: str | None = None, *, required: bool = True) -> "Fields | None":
        """Return the mapping under the key as fields of its own; None if it is not there."""
        node = self.node(key, required=required)
        return None if node is None else Fields(node, where or f"{self.where}, {key}", self.problems)

    def children(self, key: str, kind: str, *, required: bool = True) -> Iterator["Fields"]:
        """Yield each mapping of a list; it is named in messages by its id where it has one."""
        for position, item in enumerate(self.items(key, required=required), start=1):
            yield Fields(item, f"{self.where}, {name_of(item, kind, position)}", self.problems)

    def entries(self) -> MappingType[str, Node]:
        """Return all keys with their nodes, for a mapping whose keys are data; asks for every one of them."""
        self._asked.update(self._node.entries)
        return self._node.entries

    def finish(self) -> None:
        """Report every key that no getter asked for."""
        for key, source in self._node.keys.items():
            if key not in self._asked:
                self.fault(
                    source, say("content.unknown-key", key=key), listed(self._asked), nearest(key, self._asked)
                )


def name_of(node: Node, kind: str, position: int) -> str:
    """Return how messages call a thing: by its id, or by its position if it has none."""
    if isinstance(node, Mapping):
        found = node.entries.get("id")
        if isinstance(found, Scalar) and isinstance(found.value, str):
            return f"{kind} '{found.value}'"
    return f"{kind} {position}"
