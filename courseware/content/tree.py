"""YAML text to a tree in which every value and every key knows its line.

Plain scalars follow the core schema of YAML 1.2 (https://yaml.org/spec/1.2.2/, section 10.3.2):
only ``true`` and ``false`` are flags, so that ``on``, ``off``, ``yes`` and ``no`` stay the words
that a technician wrote. Aliases, tags and duplicate keys are faults, not features.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import yaml

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.words import say

DEEPEST: Final = 30
_INTEGER: Final = re.compile(r"[-+]?[0-9]+")
_NUMBER: Final = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")

TypeOfScalar = str | int | float | bool | None


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value and its place."""

    value: TypeOfScalar
    source: Source


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
        The tree; None if the text holds no value or is not valid YAML (then a problem says so).
    """
    builder = _Builder(file, problems, first_line)
    try:
        return builder.document(iter(yaml.parse(text, Loader=yaml.CSafeLoader)))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = first_line + (mark.line if mark else 0)
        problems.add(
            Source(file, line), "", say("content.syntax", reason=error.problem or error.context),
            advice=say("content.syntax-try"),
        )  # fmt: skip
    except yaml.reader.ReaderError as error:
        line = first_line + text[: error.position].count("\n")
        problems.add(Source(file, line), "", say("content.syntax", reason=error.reason))
    return None


class _Builder:
    """Turns parser events into nodes; events, not composed nodes, so that an alias is never expanded."""

    def __init__(self, file: str, problems: Problems, first_line: int) -> None:
        self._file = file
        self._problems = problems
        self._first_line = first_line

    def _source(self, event: yaml.Event) -> Source:
        return Source(self._file, self._first_line + event.start_mark.line)

    def document(self, events: Iterator[yaml.Event]) -> Node | None:
        root: Node | None = None
        documents = 0
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                node = self._node(next(events), events, 0)
                if documents == 1:
                    root = node
                else:
                    self._problems.add(
                        self._source(event), "", say("content.several-documents"),
                        advice=say("content.several-documents-try"),
                    )  # fmt: skip
        return root

    def _node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        source = self._source(event)
        if depth == DEEPEST:
            self._problems.add(source, "", say("content.too-deep", limit=DEEPEST))
        if isinstance(event, yaml.AliasEvent):
            self._problems.add(
                source, "", say("content.alias", name=event.anchor), say("content.alias-allowed"),
                say("content.alias-try"),
            )  # fmt: skip
            return Scalar(None, source)
        self._refuse_tag(event, source)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(events, source, depth)
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(events, source, depth)
        plain = event.implicit[0]  # true where the author wrote no quotes
        return Scalar(_plain(event.value) if plain else event.value, source)

    def _refuse_tag(self, event: yaml.Event, source: Source) -> None:
        tag = getattr(event, "tag", None)
        if tag is not None:
            self._problems.add(source, "", say("content.tag", tag=tag), say("content.tag-allowed"))

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
            if not isinstance(key, Scalar) or not isinstance(key.value, str):
                shown = key.value if isinstance(key, Scalar) else type(key).__name__.lower()
                self._problems.add(key.source, "", say("content.key-not-text", key=shown))
            elif key.value in entries:
                self._problems.add(
                    key.source, "", say("content.duplicate-key", key=key.value, first=keys[key.value].line),
                    advice=say("content.duplicate-key-try"),
                )  # fmt: skip
            else:
                entries[key.value] = value
                keys[key.value] = key.source
        return Mapping(entries, keys, source)


def _plain(text: str) -> TypeOfScalar:
    """Resolve a plain scalar by the core schema of YAML 1.2."""
    if text in ("", "~", "null"):
        return None
    if text in ("true", "false"):
        return text == "true"
    if _INTEGER.fullmatch(text):
        return int(text)
    if _NUMBER.fullmatch(text):
        return float(text)
    return text
