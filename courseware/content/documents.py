"""The files of a course folder, read into documents of named kinds.

Every YAML file in ``question_bank/`` starts with ``format: courseware/<kind>/<version>``; the kind
says which loader reads it. Every Markdown file in ``modules/`` has YAML front matter with the same
first line. File names and folders are the author's to choose.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.source import Source
from courseware.content.tree import Mapping, Node, Scalar, parse_yaml
from courseware.content.words import say

LARGEST_FILE: Final = 1_048_576
BANK: Final = "question_bank"
MODULES: Final = "modules"


@dataclass(frozen=True, slots=True)
class Document:
    """One content file, read.

    Attributes
    ----------
    kind : str
        From its format line: ``faults``, ``unit``, ``lesson`` ...
    version : int
        Format version [-] from the same line.
    node : Mapping
        The YAML, or the front matter of Markdown.
    file : str
        Path relative to the course folder.
    body : str
        The Markdown after the front matter; empty for YAML.
    body_line : int
        Line number [-] of the body's first line in the file.
    """

    kind: str
    version: int
    node: Mapping
    file: str
    body: str = ""
    body_line: int = 1

    @property
    def source(self) -> Source:
        """Return the place of the document's first value."""
        return self.node.source

    def fields(self, where: str, problems: Problems) -> Fields:
        """Open the document for reading, its format line already accounted for."""
        fields = Fields(self.node, where, problems)
        fields.text("format")
        return fields


def read_documents(root: Path, kinds: Iterable[str], problems: Problems) -> tuple[Document, ...]:
    """Read every content file of a course folder.

    Parameters
    ----------
    root : Path
        The course folder, which holds ``question_bank/`` and ``modules/``.
    kinds : iterable of str
        The kinds that some loader reads; any other kind is a problem.
    problems : Problems
        Receives every fault found; finding no file at all is one.

    Returns
    -------
    tuple of Document
        Sorted by file name, so that the same folder gives the same course on every system.
    """
    known = frozenset(kinds)
    paths = [*root.glob(f"{BANK}/**/*.yaml"), *root.glob(f"{MODULES}/**/*.md")]
    if not paths:
        problems.add(
            Source(f"{BANK}/", 1), "", say("content.nothing-found", folder=f"{BANK}/, {MODULES}/"),
            advice=say("content.nothing-found-try"),
        )  # fmt: skip
    names = sorted((path.relative_to(root).as_posix(), path) for path in paths)
    read = (read_document(path, name, known, problems) for name, path in names)
    return tuple(document for document in read if document is not None)


def read_document(path: Path, name: str, kinds: frozenset[str], problems: Problems) -> Document | None:
    """Read one file; None, with a problem, if it is not a document of a known kind."""
    text = _read_text(path, name, problems)
    if text is None:
        return None
    body, body_line = "", 1
    first_line = 1
    if path.suffix == ".md":
        parts = _split_front_matter(text, name, problems)
        if parts is None:
            return None
        text, body, body_line = parts
        first_line = 2
    node = parse_yaml(text, name, problems, first_line)
    if node is None:
        if not text.strip():
            problems.add(Source(name, 1), "", say("content.empty"), advice=say("content.empty-try"))
        return None
    return _identify(node, name, body, body_line, kinds, problems)


def _identify(
    node: Node, name: str, body: str, body_line: int, kinds: frozenset[str], problems: Problems
) -> Document | None:
    fields = Fields(node, "", problems)
    if not isinstance(node, Mapping):
        return None
    found = fields.text("format")
    kind, version = _parse_format(found)
    if found and (kind not in kinds or version != 1):
        allowed = [f"courseware/{kind}/1" for kind in kinds]
        value = node.entries["format"]
        problems.add(
            value.source if isinstance(value, Scalar) else node.source, "",
            say("content.wrong-format", found=found), listed(allowed), nearest(found, allowed),
        )  # fmt: skip
        return None
    return Document(kind, version, node, name, body, body_line) if found else None


def _parse_format(text: str) -> tuple[str, int]:
    parts = text.split("/")
    if len(parts) == 3 and parts[0] == "courseware" and parts[2].isdecimal():
        return parts[1], int(parts[2])
    return "", 0


def _read_text(path: Path, name: str, problems: Problems) -> str | None:
    start = Source(name, 1)
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            problems.add(
                start, "", say("content.too-large", size=size), say("content.too-large-allowed", limit=LARGEST_FILE),
                say("content.too-large-try"),
            )  # fmt: skip
            return None
        data = path.read_bytes()
    except OSError as error:
        problems.add(start, "", say("content.unreadable", reason=error.strerror))
        return None
    if data.startswith(b"\xef\xbb\xbf"):
        problems.add(start, "", say("content.has-bom"), advice=say("content.not-utf8-try"))
        return None
    try:
        return data.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = 1 + data[: error.start].count(b"\n")
        found = say("content.not-utf8", byte=f"0x{data[error.start]:02x}", offset=error.start)
        problems.add(Source(name, line), "", found, advice=say("content.not-utf8-try"))
        return None


def _split_front_matter(text: str, name: str, problems: Problems) -> tuple[str, str, int] | None:
    """Return (front matter, body, line number of the body) of a Markdown file."""
    lines = text.split("\n")
    if lines[0].rstrip() != "---":
        problems.add(
            Source(name, 1), "", say("content.no-front-matter"), advice=say("content.no-front-matter-try")
        )
        return None
    for number, line in enumerate(lines[1:], start=2):
        if line.rstrip() == "---":
            return "\n".join(lines[1 : number - 1]), "\n".join(lines[number:]), number + 1
    problems.add(
        Source(name, 1), "", say("content.open-front-matter"), advice=say("content.open-front-matter-try")
    )
    return None


def unique_ids(found: Iterable[tuple[str, str, Source]], problems: Problems) -> None:
    """Record a problem for every id used twice.

    Parameters
    ----------
    found : iterable of (kind, id, source)
        Everything that has an id, in the order of loading.
    problems : Problems
        Receives one problem for each repeated id.
    """
    first: dict[tuple[str, str], Source] = {}
    for kind, name, source in found:
        if (kind, name) in first:
            problems.add(
                source, f"{kind} '{name}'", say("content.duplicate-id", id=name, first=first[kind, name]),
                advice=say("content.duplicate-id-try"),
            )  # fmt: skip
        else:
            first[kind, name] = source
