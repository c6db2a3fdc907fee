"""The files of a course folder, read into documents of named kinds.

Every YAML file in ``question_bank/`` starts with ``format: courseware/<kind>/<version>``; the kind
says which loader reads it. Every Markdown file in ``modules/`` has YAML front matter with the same
first line. File names and folders are the author's to choose.
"""

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest, shown
from courseware.content.source import Source
from courseware.content.text_file import printable, read_text
from courseware.content.tree import Mapping, Node, Scalar, parse_yaml
from courseware.content.words import say

BANK: Final = "question_bank"
MODULES: Final = "modules"
_SUFFIXES: Final = {BANK: ".yaml", MODULES: ".md"}
# What an author may well have meant as content: passing it over in silence would lose it.
_NEAR_MISSES: Final = {BANK: (".yml", ".yaml.txt", ".md"), MODULES: (".markdown", ".md.txt", ".yaml")}


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
    files = content_files(root, problems)
    if not files and not problems:
        problems.add(
            Source(f"{BANK}/", 1), "", say("content.nothing-found", folder=f"{BANK}/, {MODULES}/"),
            advice=say("content.nothing-found-try"),
        )  # fmt: skip
    read = (read_document(path, name, known, problems) for name, path in files)
    return tuple(document for document in read if document is not None)


def content_files(root: Path, problems: Problems) -> tuple[tuple[str, Path], ...]:
    """Find the content files of a course folder.

    Parameters
    ----------
    root : Path
        The course folder.
    problems : Problems
        Receives a fault for each folder that cannot be read, and for each file that misses being content by its suffix.

    Returns
    -------
    tuple of (str, Path)
        Name relative to the course folder, with forward slashes, and path; sorted by name. Names that begin with a
        dot are passed over.
    """
    found = []
    for top, suffix in _SUFFIXES.items():
        for folder, names in _walk(root, top, problems):
            for name in names:
                path = folder / name
                shown_as = path.relative_to(root).as_posix()
                if name.lower().endswith(suffix):
                    found.append((shown_as, path))
                elif name.lower().endswith(_NEAR_MISSES[top]):
                    allowed = say("content.wrong-suffix-allowed", suffix=suffix, folder=top)
                    problems.add(Source(shown_as, 1), "", say("content.wrong-suffix"), allowed)
    return tuple(sorted(found))


def _walk(root: Path, top: str, problems: Problems) -> Iterable[tuple[Path, list[str]]]:
    def refuse(error: OSError) -> None:
        name = Path(error.filename).relative_to(root).as_posix()
        reason = error.strerror or str(error)
        problems.add(Source(f"{name}/", 1), "", say("content.unreadable-folder", reason=reason),
                     advice=say("content.unreadable-try"))  # fmt: skip

    if not (root / top).is_dir():
        return
    for folder, folders, names in os.walk(root / top, onerror=refuse):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield Path(folder), [name for name in names if not name.startswith(".")]


def read_document(path: Path, name: str, kinds: frozenset[str], problems: Problems) -> Document | None:
    """Read one file; None, with a problem, if it is not a document of a known kind."""
    text = read_text(path, name, problems)
    if text is None:
        return None
    body, body_line, first_line = "", 1, 1
    if name.lower().endswith(_SUFFIXES[MODULES]):
        parts = _split_front_matter(text, name, problems)
        if parts is None:
            return None
        text, body, body_line = parts
        first_line = 2
        body = printable(body, name, problems, body_line)
    node = parse_yaml(text, name, problems, first_line)
    kind = None if node is None else _kind_of(node, kinds, problems)
    return Document(kind, 1, node, name, body, body_line) if kind and isinstance(node, Mapping) else None


def _kind_of(node: Node, kinds: frozenset[str], problems: Problems) -> str | None:
    """Return the kind that the format line names; None, with a problem, if it names none."""
    fields = Fields(node, "", problems)
    if not isinstance(node, Mapping):
        return None
    allowed = {f"courseware/{kind}/1": kind for kind in kinds}
    if not fields.has("format"):
        missing = say("content.missing-key", key="format")
        problems.add(node.source, "", missing, listed(allowed), say("content.missing-format-try"))
        return None
    value = node.entries["format"]
    found = value.written if isinstance(value, Scalar) else fields.text("format")
    if isinstance(value, Scalar) and found not in allowed and not value.refused:
        problems.add(
            value.source, "", say("content.wrong-format", found=shown(found)), listed(allowed), nearest(found, allowed)
        )
    return allowed.get(found)


def _split_front_matter(text: str, name: str, problems: Problems) -> tuple[str, str, int] | None:
    """Return (front matter, body, line number of the body) of a Markdown file."""
    lines = text.split("\n")
    if lines[0].rstrip() != "---":
        problems.add(Source(name, 1), "", say("content.no-front-matter"), advice=say("content.no-front-matter-try"))
        return None
    for number, line in enumerate(lines[1:], start=2):
        if line.rstrip() == "---":
            return "\n".join(lines[1 : number - 1]), "\n".join(lines[number:]), number + 1
    problems.add(Source(name, 1), "", say("content.open-front-matter"), advice=say("content.open-front-matter-try"))
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
