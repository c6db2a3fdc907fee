"""Origin and review of a piece of content."""

from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.source import Source
from courseware.content.tree import parse_yaml


def read(text: str) -> tuple[Provenance, list[str]]:
    problems = Problems()
    node = parse_yaml(text, "a.yaml", problems)
    assert node is not None
    return read_provenance(Fields(node, "fault 'x'", problems)), [str(problem) for problem in problems]


def test_a_reviewed_thing_says_by_whom_and_when() -> None:
    found, problems = read("origin: a handbook, table 3\nreviewed: {by: A. Smith, on: 2026-11-25}\n")
    assert found == Provenance("a handbook, table 3", "A. Smith", "2026-11-25", Source("a.yaml", 1))
    assert found.reviewed
    assert found.status() == "reviewed by A. Smith on 2026-11-25"
    assert problems == []


def test_a_thing_without_a_review_says_so() -> None:
    found, problems = read("origin: common practice, no source\n")
    assert not found.reviewed
    assert found.status() == "not reviewed by a licensed technician"
    assert problems == []


def test_the_whole_message_of_each_fault() -> None:
    assert read("reviewed: {by: A. Smith}\n")[1] == [
        "a.yaml:1: fault 'x': the key 'origin' is missing\n    try: add a line 'origin: ...'",
        "a.yaml:1: fault 'x', reviewed: the key 'on' is missing\n    try: add a line 'on: ...'",
    ]
    assert read("origin: x\nreviewed:\n  by: A. Smith\n  on: 2026-02-30\n  at: noon\n")[1] == [
        "a.yaml:4: fault 'x', reviewed: 'on' is '2026-02-30'\n    allowed: a date such as 2026-11-25",
        "a.yaml:5: fault 'x', reviewed: unknown key 'at'\n    allowed: by, on",
    ]
    # Python's own reader of dates takes this form; people who sort reports by date do not want two.
    assert read("origin: x\nreviewed: {by: A. Smith, on: '20261125'}\n")[1] == [
        "a.yaml:2: fault 'x', reviewed: 'on' is '20261125'\n    allowed: a date such as 2026-11-25",
    ]
