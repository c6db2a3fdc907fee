"""YAML text to a tree in which every value and every key knows its line.

Plain scalars follow the core schema of YAML 1.2 (https://yaml.org/spec/1.2.2/, section 10.3.2):
only ``true`` and ``false`` are flags, so that ``on``, ``off``, ``yes`` and ``no`` stay the words
that a technician wrote. Aliases, tags and duplicate keys are faults, not features.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import yaml

from courseware.content.core_schema import TypeOfScalar, resolve
from courseware.content.problems import Problems, shown
from courseware.content.source import Source
from courseware.content.text_file import printable
from courseware.content.words import say

DEEPEST: Final = 30


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value and its place.

    Attributes
    ----------
    value : str, int, float, bool or None
        What the author's text means.
    source : Source
        Where it stands.
    written : str
        The author's text itself, for messages: ``1.10`` has the value 1.1.
    refused : bool
        True where a fault of YAML stood here and was reported; nobody need report it again.
    """

    value: TypeOfScalar
    source: Source
    written: str = ""
    refused: bool = False


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list of nodes and its place."""

    items: tuple["Node", ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with their nodes; ``keys`` holds where each key was written."""

    entries: dict[str, "Node"]
    keys: dict[str, Source]
    source: Source


Node = Scalar | Sequence | Mapping


def parse_yaml(text: str, file: str, problems: Problems, first_line: int = 1) -> Node | None:
    """Parse YAML text into a tree.

    Parameters
    ----------
    text : str
        The YAML document.
    file : str
        Name to show in problems.
    problems : Problems
        Receives every fault found.
    first_line : int
        Line number [-] of the text's first line in ``file``; larger than 1 for YAML inside Markdown.

    Returns
    -------
    Node or None
        The tree; None, with a problem, if the text holds no value or is not valid YAML.
    """
    builder = _Builder(file, problems, first_line)
    events = yaml.parse(printable(text, file, problems, first_line), Loader=yaml.CSafeLoader)
    try:
        root = builder.document(iter(events))
    except yaml.MarkedYAMLError as error:
        builder.refuse_syntax(error)
        return None
    if root is None:
        problems.add(Source(file, first_line), "", say("content.empty"), advice=say("content.empty-try"))
    return root


def describe(node: Node) -> str:
    """Return what a node is, in words, for a message."""
    if isinstance(node, Mapping):
        return say("content.a-mapping")
    if isinstance(node, Sequence):
        return say("content.a-list")
    if node.value is None:
        return say("content.nothing")
    if isinstance(node.value, bool):
        return say("content.is-flag", value=node.written)
    if isinstance(node.value, str):
        return say("content.is-text", value=shown(node.value))
    return say("content.is-number", value=shown(node.written))


class _Builder:
    """Turns parser events into nodes; events, not composed nodes, so that an alias is never expanded."""

    def __init__(self, file: str, problems: Problems, first_line: int) -> None:
        self._file = file
        self._problems = problems
        self._first_line = first_line

    def _source(self, event: yaml.Event) -> Source:
        assert event.start_mark is not None  # an event that the parser made always has one
        return Source(self._file, self._first_line + event.start_mark.line)

    def refuse_syntax(self, error: yaml.MarkedYAMLError) -> None:
        """Report where the parser stopped, and where the thing that it was reading began."""
        found, begun = error.problem_mark, error.context_mark
        reason = say("content.syntax", reason=error.problem)
        if begun is not None and found is not None and begun.line != found.line:
            line = self._first_line + begun.line
            reason = say("content.syntax-begun", reason=error.problem, context=error.context, line=line)
        source = Source(self._file, self._first_line + (found.line if found is not None else 0))
        self._problems.add(source, "", reason, advice=say("content.syntax-try"))

    def document(self, events: Iterator[yaml.Event]) -> Node | None:
        """Return the root of the first document; None if there is none."""
        root: Node | None = None
        for event in events:
            if not isinstance(event, yaml.DocumentStartEvent):
                continue
            node = self._node(next(events), events, 0)
            if root is None:
                root = node
            else:
                self._problems.add(
                    self._source(event), "", say("content.several-documents"),
                    advice=say("content.several-documents-try"),
                )  # fmt: skip
        return root

    def _node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        source = self._source(event)
        if isinstance(event, yaml.AliasEvent):
            self._problems.add(
                source, "", say("content.alias", name=shown(str(event.anchor))), say("content.alias-allowed"),
                say("content.alias-try"),
            )  # fmt: skip
            return Scalar(None, source, refused=True)
        refused = self._refuse_tag(event, source)
        if isinstance(event, yaml.CollectionStartEvent):
            if depth == DEEPEST:
                self._problems.add(
                    source, "", say("content.too-deep", limit=DEEPEST), advice=say("content.too-deep-try")
                )
                _skip(events)
                return Scalar(None, source, refused=True)
            if isinstance(event, yaml.SequenceStartEvent):
                return self._sequence(events, source, depth)
            return self._mapping(events, source, depth)
        assert isinstance(event, yaml.ScalarEvent)
        # Quotes can write what the file itself may not hold: "\0".
        text = printable(event.value, self._file, self._problems, source.line)
        plain = event.implicit[0]  # true where the author wrote no quotes
        value = resolve(text) if plain else text
        if isinstance(value, float) and not math.isfinite(value):
            self._problems.add(
                source, "", say("content.not-finite", number=shown(text)), say("content.not-finite-allowed")
            )
            return Scalar(None, source, text, refused=True)
        return Scalar(value, source, text, refused)

    def _refuse_tag(self, event: yaml.Event, source: Source) -> bool:
        tag = getattr(event, "tag", None)
        if tag is not None:
            self._problems.add(
                source, "", say("content.tag", tag=shown(tag)), say("content.tag-allowed"), say("content.tag-try")
            )
        return tag is not None

    def _sequence(self, events: Iterator[yaml.Event], source: Source, depth: int) -> Sequence:
        items = []
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            items.append(self._node(event, events, depth + 1))
        return Sequence(tuple(items), source)

    def _mapping(self, events: Iterator[yaml.Event], source: Source, depth: int) -> Mapping:
        entries: dict[str, Node] = {}
        keys: dict[str, Source] = {}
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            key = self._node(event, events, depth + 1)
            value = self._node(next(events), events, depth + 1)
            name = self._key(key)
            if name is None:
                continue
            if name in entries:
                self._problems.add(
                    key.source, "", say("content.duplicate-key", key=shown(name), first=keys[name].line),
                    advice=say("content.duplicate-key-try"),
                )  # fmt: skip
            else:
                entries[name] = value
                keys[name] = key.source
        return Mapping(entries, keys, source)

    def _key(self, key: Node) -> str | None:
        if isinstance(key, Scalar) and isinstance(key.value, str):
            return key.value
        if not (isinstance(key, Scalar) and key.refused):
            advice = (
                say("content.quote-try", value=shown(key.written)) if isinstance(key, Scalar) and key.written else ""
            )
            found = say("content.key-not-text", found=describe(key))
            self._problems.add(key.source, "", found, say("content.a-text"), advice)
        return None


def _skip(events: Iterator[yaml.Event]) -> None:
    """Read past the rest of a list or mapping without building it."""
    still_open = 1
    while still_open:
        event = next(events)
        if isinstance(event, yaml.CollectionStartEvent):
            still_open += 1
        elif isinstance(event, yaml.CollectionEndEvent):
            still_open -= 1
