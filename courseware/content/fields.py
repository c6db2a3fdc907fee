"""Typed getters over one mapping of the tree: the classes stay clean, the checking is here.

A loader opens a :class:`Fields` over a node, asks for each key once, and calls
:meth:`Fields.finish`, which reports every key that nobody asked for. A getter that finds a fault
records it and returns a stand-in of the right type, so that one run reports every fault;
no job uses what was loaded before :meth:`Problems.raise_if_any` has passed.
"""

import re
from collections.abc import Collection, Iterator
from collections.abc import Mapping as MappingType
from typing import Final

from courseware.content.problems import Problems, listed, nearest, shown
from courseware.content.source import Source
from courseware.content.tree import Mapping, Node, Scalar, Sequence, describe
from courseware.content.words import say

ID_PATTERN: Final = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


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
        if self._broken and not _is_refused(node):
            self.fault(node.source, say("content.not-a-mapping", found=describe(node)), say("content.a-mapping"))

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
        return None if found is None or _is_refused(found) else found

    def _scalar(self, key: str, kinds: tuple[type, ...], allowed: str, *, required: bool) -> Scalar | None:
        node = self.node(key, required=required)
        if node is None:
            return None
        return self._held_to(key, node, kinds, allowed)

    def _held_to(self, key: str, node: Node, kinds: tuple[type, ...], allowed: str) -> Scalar | None:
        """Return the node if it is a scalar of one of the kinds; else record the fault."""
        if isinstance(node, Scalar):
            # bool is an int in Python, not in a technician's file
            right = isinstance(node.value, kinds) and (bool in kinds or not isinstance(node.value, bool))
            if right:
                return node
        quotable = str in kinds and isinstance(node, Scalar) and node.value is not None
        advice = say("content.quote-try", value=shown(node.written)) if quotable and isinstance(node, Scalar) else ""
        self.fault(node.source, say("content.wrong-type", key=key, found=describe(node)), allowed, advice)
        return None

    def text(self, key: str, default: str | None = None) -> str:
        """Return text; required unless a default is given."""
        node = self._scalar(key, (str,), say("content.a-text"), required=default is None)
        if node is None:
            return default or ""
        return self._not_empty(key, node)

    def _not_empty(self, key: str, node: Scalar) -> str:
        text = str(node.value).strip()
        if not text:
            self.fault(node.source, say("content.empty-text", key=key), say("content.a-text"))
        return text

    def identifier(self, key: str = "id") -> str:
        """Return a required id: lower-case words joined by hyphens."""
        text = self.text(key)
        if text and not ID_PATTERN.fullmatch(text):
            self.fault(
                self._value_source(key),
                say("content.bad-id", key=key, found=shown(text)),
                say("content.bad-id-allowed"),
            )
        return text

    def number(
        self, key: str, default: float | None = None, *, low: float | None = None, high: float | None = None
    ) -> float:
        """Return a number, held to the range [low, high] if one is given."""
        node = self._scalar(key, (int, float), say("content.a-number"), required=default is None)
        if node is None:
            return default if default is not None else 0.0
        self._hold_range(key, node, low, high)
        return _as_float(node)

    def integer(self, key: str, default: int | None = None, *, low: int | None = None, high: int | None = None) -> int:
        """Return a whole number, held to the range [low, high] if one is given."""
        node = self._scalar(key, (int,), say("content.a-whole-number"), required=default is None)
        if node is None:
            return default if default is not None else 0
        assert isinstance(node.value, int)
        self._hold_range(key, node, low, high)
        return node.value

    def _hold_range(self, key: str, node: Scalar, low: float | None, high: float | None) -> None:
        value = _as_float(node)
        if (low is None or value >= low) and (high is None or value <= high):
            return
        if low is not None and high is not None:
            allowed = say("content.range-between", low=low, high=high)
        elif low is not None:
            allowed = say("content.range-from", low=low)
        else:
            allowed = say("content.range-to", high=high)
        self.fault(node.source, say("content.out-of-range", key=key, found=node.written), allowed)

    def flag(self, key: str, *, default: bool | None = None) -> bool:
        """Return true or false; required unless a default is given."""
        node = self._scalar(key, (bool,), say("content.a-flag"), required=default is None)
        return bool(node.value) if node is not None else bool(default)

    def choice(self, key: str, allowed: Collection[str], default: str | None = None) -> str:
        """Return one of the allowed words."""
        text = self.text(key, default)
        if text and text not in allowed:
            self.fault(
                self._value_source(key), say("content.wrong-choice", key=key, found=shown(text)), listed(allowed),
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
                source, say("content.unknown-reference", key=key, kind=kind, found=shown(found)), listed(known),
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
        return tuple(item for item in node.items if not _is_refused(item))

    def texts(self, key: str, *, required: bool = True) -> tuple[str, ...]:
        """Return a list of texts."""
        return tuple(text for text, _ in self.located_texts(key, required=required))

    def located_texts(self, key: str, *, required: bool = True) -> tuple[tuple[str, Source], ...]:
        """Return a list of texts, each with its place."""
        found = []
        for item in self.items(key, required=required):
            scalar = self._held_to(key, item, (str,), say("content.a-text"))
            if scalar is not None:
                found.append((self._not_empty(key, scalar), scalar.source))
        return tuple(found)

    def references(self, key: str, kind: str, known: Collection[str], *, required: bool = True) -> tuple[str, ...]:
        """Return a list of ids of existing things."""
        found = self.located_texts(key, required=required)
        for text, source in found:
            self.refer(source, key, kind, text, known)
        return tuple(text for text, _ in found)

    def numbers(self, key: str, *, required: bool = True) -> tuple[float, ...]:
        """Return a list of numbers."""
        scalars = (
            self._held_to(key, item, (int, float), say("content.a-number"))
            for item in self.items(key, required=required)
        )
        return tuple(_as_float(scalar) for scalar in scalars if scalar is not None)

    def child(self, key: str, where: str | None = None, *, required: bool = True) -> "Fields | None":
        """Return the mapping under the key as fields of its own; None if it is not there."""
        node = self.node(key, required=required)
        return None if node is None else Fields(node, where or self._inside(key), self.problems)

    def children(self, key: str, kind: str, *, required: bool = True) -> Iterator["Fields"]:
        """Yield each mapping of a list; it is named in messages by its id where it has one."""
        for position, item in enumerate(self.items(key, required=required), start=1):
            yield Fields(item, self._inside(name_of(item, kind, position)), self.problems)

    def _inside(self, name: str) -> str:
        return f"{self.where}, {name}" if self.where else name

    def entries(self) -> MappingType[str, Node]:
        """Return all keys with their nodes, for a mapping whose keys are data; asks for every one of them."""
        self._asked.update(self._node.entries)
        return {key: node for key, node in self._node.entries.items() if not _is_refused(node)}

    def finish(self) -> None:
        """Report every key that no getter asked for."""
        for key, source in self._node.keys.items():
            if key not in self._asked:
                self.fault(
                    source, say("content.unknown-key", key=shown(key)), listed(self._asked), nearest(key, self._asked)
                )


def name_of(node: Node, kind: str, position: int) -> str:
    """Return how messages call a thing: by its id, or by its position if it has none."""
    if isinstance(node, Mapping):
        found = node.entries.get("id")
        if isinstance(found, Scalar) and isinstance(found.value, str):
            return f"{kind} '{shown(found.value)}'"
    return f"{kind} {position}"


def _is_refused(node: Node) -> bool:
    return isinstance(node, Scalar) and node.refused


def _as_float(node: Scalar) -> float:
    assert isinstance(node.value, int | float)
    return float(node.value)
