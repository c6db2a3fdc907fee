"""Whatever bytes a file holds, reading it tells faults or returns documents; it never raises."""

import tempfile
import unicodedata
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.content.problems import Problems
from courseware.content.tree import Mapping, Node, Scalar, Sequence, parse_yaml
from tests.content.sample import SOUND, report_on

# Pieces that mean something to the reader meet each other far more often than in random bytes.
PIECES = st.sampled_from(
    [*SOUND.splitlines(keepends=True), "---\n", "...\n", "- ", "? ", ": ", "[", "]", "{", "}", "&a ", "*a", "!!str ",
     "|\n", ">-\n", "'", '"', "\\0", "#", "%YAML 1.1\n", "\t", "\r\n", "\r", "\0", "\x07", "\u2028", "\ufeff",
     "0x", "9" * 40, ".inf", "1e999", "<<: ", "format: courseware/", "bench/1\n", "null: ", "\n  ", "\n"]
)  # fmt: skip
TEXTS = st.lists(PIECES | st.text(max_size=8), max_size=40).map("".join)
BYTES = st.binary(max_size=200) | TEXTS.map(str.encode) | TEXTS.map(lambda text: text.encode("utf-16"))


@settings(max_examples=200, deadline=None)
@given(yaml=BYTES, markdown=BYTES | BYTES.map(lambda data: b"---\n" + data))
def test_any_bytes_are_read_or_told(yaml: bytes, markdown: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        report = report_on(Path(folder), {"question_bank/b.yaml": yaml, "modules/a.md": markdown})
    assert not [sign for sign in report if unicodedata.category(sign) == "Cc" and sign != "\n"]
    if not yaml.strip(b" \r\n"):  # a tab is a fault of YAML already
        assert "question_bank/b.yaml:1: the file holds nothing" in report


@settings(max_examples=300, deadline=None)
@given(text=st.text() | TEXTS)
def test_any_text_is_a_tree_or_a_fault_and_every_line_is_in_the_text(text: str) -> None:
    problems = Problems()
    tree = parse_yaml(text, "a.yaml", problems)
    assert tree is not None or len(problems) > 0
    last = 2 + text.count("\n") + text.count("\r")
    assert all(1 <= problem.source.line <= last for problem in problems)
    if tree is not None:
        assert all(1 <= line <= last for line in lines_of(tree))


def lines_of(node: Node) -> list[int]:
    own = [node.source.line]
    match node:
        case Scalar():
            return own
        case Sequence(items):
            return own + [line for item in items for line in lines_of(item)]
        case Mapping(entries, keys):
            inner = [line for item in entries.values() for line in lines_of(item)]
            return own + [source.line for source in keys.values()] + inner


@given(st.dictionaries(st.from_regex(r"[a-z]{1,8}", fullmatch=True), st.integers(-(10**17), 10**17) | st.booleans()))
def test_what_is_written_plainly_is_read_back(values: dict[str, int]) -> None:
    keys = {f"k{key}": value for key, value in values.items()}  # "null" and "true" are no keys
    text = "".join(f"{key}: {str(value).lower()}\n" for key, value in keys.items()) or "{}\n"
    problems = Problems()
    tree = parse_yaml(text, "a.yaml", problems)
    assert isinstance(tree, Mapping)
    assert {key: node.value for key, node in tree.entries.items() if isinstance(node, Scalar)} == keys
    assert list(problems) == []
