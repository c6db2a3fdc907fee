"""A kind of document that uses every getter once, so that the tests can damage one thing at a time."""

from pathlib import Path
from textwrap import dedent

from courseware.content.documents import Document, read_documents, unique_ids
from courseware.content.problems import Problems
from courseware.content.provenance import read_provenance

KINDS = ("bench", "lesson")
LESSONS = ("ignition-test", "lockout", "combustion-test")
MOMENTS = ("standby", "trial", "run")

SOUND = """\
format: courseware/bench/1
id: spark-check
title: Look for the spark
minutes: 4
tries: 2
live: true
moment: trial
lesson: ignition-test
tools: [mirror, rated tester]
after: [lockout]
readings: [1.5, 2]
limits:
  low: 8.5
bands:
  - id: weak
    high: 8.5
  - id: good
settings:
  gap: wide
origin: common practice, no source
"""


def sound(**changes: str) -> str:
    """Return the sound document with the given keys' lines replaced, added, or (an empty text) left out."""
    lines = {line.partition(":")[0]: line for line in _top_level(SOUND)}
    for name, text in changes.items():
        lines[name] = dedent(text).strip("\n")
    return "".join(f"{line}\n" for line in lines.values() if line)


def _top_level(text: str) -> list[str]:
    parts: list[str] = []
    for line in text.splitlines():
        if line.startswith((" ", "-")):
            parts[-1] += f"\n{line}"
        else:
            parts.append(line)
    return parts


def report_on(root: Path, files: dict[str, str | bytes]) -> str:
    """Write a course folder, read it, load its bench documents; return the whole report."""
    for name, content in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    problems = Problems()
    documents = read_documents(root, KINDS, problems)
    load_benches(documents, problems)
    return "\n".join(str(problem) for problem in problems)


def report_on_bench(root: Path, content: str | bytes) -> str:
    """Return the whole report on one YAML file, ``question_bank/b.yaml``."""
    return report_on(root, {"question_bank/b.yaml": content})


def load_benches(documents: tuple[Document, ...], problems: Problems) -> None:
    """Read every bench document, key by key."""
    ids = []
    for document in documents:
        if document.kind != "bench":
            continue
        fields = document.fields("bench", problems)
        ids.append(("bench", fields.identifier(), fields.source_of("id")))
        fields.text("title")
        fields.number("minutes", low=0.5, high=60)
        fields.integer("tries", 1, low=1)
        fields.flag("live", default=False)
        fields.choice("moment", MOMENTS, "run")
        fields.reference("lesson", "lesson", LESSONS, "")
        fields.texts("tools")
        fields.references("after", "lesson", LESSONS, required=False)
        fields.numbers("readings", required=False)
        limits = fields.child("limits")
        if limits is not None:
            limits.number("low", high=20)
            limits.finish()
        for band in fields.children("bands", "band"):
            band.identifier()
            band.number("high", 0)
            band.finish()
        settings = fields.child("settings", required=False)
        if settings is not None:
            settings.entries()
            settings.finish()
        read_provenance(fields)
        fields.finish()
    unique_ids(ids, problems)
