"""YAML to a tree: each fault of YAML told whole, every value on its line."""

import time
import tracemalloc
from pathlib import Path

import pytest

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.tree import Mapping, Scalar, Sequence, parse_yaml
from tests.content.sample import SOUND, report_on_bench, sound

ALIAS = (
    "    allowed: plain values only; aliases are not expanded, so that no file can grow on reading\n"
    "    try: write the value out"
)
TAG = (
    "    allowed: plain text, numbers, true, false, lists and mappings\n"
    "    try: delete the tag; put text that could be taken for a number in quotes"
)
SYNTAX = "    try: check the indentation and the quotes on this line and the one above it"
UNPRINTABLE = (
    "    allowed: printable characters, tabs and line ends\n    try: delete the character, or type the line again"
)

# name of the fault -> (the damaged document, the whole report)
FAULTS = {
    "duplicate keys": (
        sound(x="title: again\nlimits: {low: 1, low: 2}"),
        (
            "question_bank/b.yaml:21: the key 'title' is written twice; first on line 3\n    try: keep one of the two\n"
            "question_bank/b.yaml:22: the key 'limits' is written twice; first on line 12\n"
            "    try: keep one of the two\n"
            "question_bank/b.yaml:22: the key 'low' is written twice; first on line 22\n    try: keep one of the two"
        ),
    ),
    "aliases": (
        sound(title="title: &a Look", moment="moment: *a", tools="tools: [*a, mirror]", limits="limits: *a"),
        (
            f"question_bank/b.yaml:7: an alias (*a) is used\n{ALIAS}\n"
            f"question_bank/b.yaml:9: an alias (*a) is used\n{ALIAS}\n"
            f"question_bank/b.yaml:12: an alias (*a) is used\n{ALIAS}"
        ),
    ),
    "tags": (
        sound(title="title: !!str 5", tools="tools: !bin [a]", settings="settings: {gap: !!python/name:os.system ''}"),
        (
            f"question_bank/b.yaml:3: the tag tag:yaml.org,2002:str is used\n{TAG}\n"
            f"question_bank/b.yaml:9: the tag !bin is used\n{TAG}\n"
            f"question_bank/b.yaml:18: the tag tag:yaml.org,2002:python/name:os.system is used\n{TAG}"
        ),
    ),
    "keys that are not text": (
        sound(x="1: a\n? [a]\n: b\n? {a: b}\n: c\nnull: 3\ntrue: 4\n? \n: 5\n2026: 6\n? *a\n: 7"),
        (
            'question_bank/b.yaml:21: a key is the number 1\n    allowed: text\n    try: put it in quotes: "1"\n'
            "question_bank/b.yaml:22: a key is a list\n    allowed: text\n"
            "question_bank/b.yaml:24: a key is a mapping (key: value lines)\n    allowed: text\n"
            'question_bank/b.yaml:26: a key is nothing\n    allowed: text\n    try: put it in quotes: "null"\n'
            'question_bank/b.yaml:27: a key is true\n    allowed: text\n    try: put it in quotes: "true"\n'
            "question_bank/b.yaml:28: a key is nothing\n    allowed: text\n"
            'question_bank/b.yaml:30: a key is the number 2026\n    allowed: text\n    try: put it in quotes: "2026"\n'
            f"question_bank/b.yaml:31: an alias (*a) is used\n{ALIAS}"
        ),
    ),
    "several documents": (
        sound(x="---\na: *b\n--- {}\n"),
        (
            "question_bank/b.yaml:21: the file holds more than one YAML document\n    try: remove the second '---'\n"
            f"question_bank/b.yaml:22: an alias (*b) is used\n{ALIAS}\n"
            "question_bank/b.yaml:23: the file holds more than one YAML document\n    try: remove the second '---'"
        ),
    ),
    "too deep": (
        sound(settings=f"settings: {{gap: {'[' * 40}{']' * 40}}}"),
        (
            "question_bank/b.yaml:18: lists and mappings are nested more than 30 deep\n"
            "    try: check the brackets on this line and the ones above it"
        ),
    ),
    "colon inside a plain value": (
        sound(title="title: Look: the spark"),
        f"question_bank/b.yaml:3: not valid YAML: mapping values are not allowed in this context\n{SYNTAX}",
    ),
    "indentation": (
        sound(extra="extra: a\n  more: b"),
        f"question_bank/b.yaml:22: not valid YAML: mapping values are not allowed in this context\n{SYNTAX}",
    ),
    "open quote": (
        sound(tools="tools: ['mirror"),
        (
            "question_bank/b.yaml:21: not valid YAML: found unexpected end of stream, while scanning a quoted scalar "
            f"that begins on line 9\n{SYNTAX}"
        ),
    ),
    "open bracket": (
        sound(tools="tools: [mirror,"),
        (
            "question_bank/b.yaml:11: not valid YAML: did not find expected ',' or ']', while parsing a flow sequence "
            f"that begins on line 9\n{SYNTAX}"
        ),
    ),
    "tab for indentation": (
        sound(limits="limits:\n\tlow: 1"),
        f"question_bank/b.yaml:13: not valid YAML: found character that cannot start any token\n{SYNTAX}",
    ),
    "invisible characters written as escapes": (
        sound(title='title: "a\\0b\\u2028"'),
        (
            f"question_bank/b.yaml:3: the invisible character U+0000 is used\n{UNPRINTABLE}\n"
            f"question_bank/b.yaml:3: the invisible character U+2028 is used\n{UNPRINTABLE}"
        ),
    ),
    "faults before and after a fault of YAML": (
        sound(title="title: &a 5", id="id: *a", minutes="minutes: 99"),
        (
            f"question_bank/b.yaml:2: an alias (*a) is used\n{ALIAS}\n"
            "question_bank/b.yaml:3: bench: 'title' is the number 5\n    allowed: text\n"
            '    try: put it in quotes: "5"\n'
            "question_bank/b.yaml:4: bench: 'minutes' is 99\n    allowed: from 0.5 to 60"
        ),
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_the_whole_message_of_each_fault(fault: str, tmp_path: Path) -> None:
    damaged, report = FAULTS[fault]
    assert report_on_bench(tmp_path, damaged) == report


def alias_bomb(levels: int) -> str:
    """Return a document whose last key would hold 9 ** levels words, were its aliases expanded."""
    lines = [f"bomb{level}: &b{level} [{', '.join([f'*b{level - 1}'] * 9)}]" for level in range(1, levels)]
    return "\n".join([SOUND.rstrip("\n"), "bomb0: &b0 [ha, ha, ha, ha, ha, ha, ha, ha, ha]", *lines, ""])


def test_an_alias_bomb_is_told_and_takes_neither_time_nor_memory(tmp_path: Path) -> None:
    tracemalloc.start()
    begun = time.perf_counter()
    report = report_on_bench(tmp_path, alias_bomb(200))
    spent = time.perf_counter() - begun
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    aliases = [line for line in report.splitlines() if line.endswith("is used")]
    assert aliases == [
        f"question_bank/b.yaml:{21 + level}: an alias (*b{level - 1}) is used" for level in range(1, 200)
    ]
    assert peak < 10_000_000
    assert spent < 5  # a fraction of a second; expanded, it would outlast the sun


def test_an_anchor_that_nobody_refers_to_changes_nothing() -> None:
    problems = Problems()
    tree = parse_yaml("a: &here 5\n", "a.yaml", problems)
    assert isinstance(tree, Mapping)
    assert tree.entries["a"] == Scalar(5, Source("a.yaml", 1), "5")
    assert list(problems) == []


@pytest.mark.parametrize("opening", ["[", "- ", "? ", "{a: ", "[{a: "])
def test_brackets_deeper_than_any_stack_are_told_at_once(opening: str, tmp_path: Path) -> None:
    begun = time.perf_counter()
    report = report_on_bench(tmp_path, opening * 150_000)
    assert time.perf_counter() - begun < 5
    # Whether the parser or the tree stops first is the parser's choice, and differs between its versions.
    assert report.startswith(
        ("question_bank/b.yaml:1: not valid YAML: ", "question_bank/b.yaml:1: lists and mappings are nested")
    )


def test_thirty_levels_are_read() -> None:
    problems = Problems()
    tree = parse_yaml("[" * 30 + "]" * 30, "a.yaml", problems)
    depth = 0
    while isinstance(tree, Sequence):
        depth += 1
        tree = tree.items[0] if tree.items else None
    assert depth == 30
    assert list(problems) == []


def test_every_key_and_value_knows_its_line() -> None:
    problems = Problems()
    text = (
        "# a comment\n\na: 1\nb:\n  - x\n  -\n    y: |\n      long\n      text\n    z: >-\n      q\n"
        "c:\nd: {e: 1,\n  f: 2}\n"
    )
    tree = parse_yaml(text, "a.md", problems, first_line=10)
    assert isinstance(tree, Mapping)
    assert {key: source.line for key, source in tree.keys.items()} == {"a": 12, "b": 13, "c": 21, "d": 22}
    assert {key: node.source.line for key, node in tree.entries.items()} == {"a": 12, "b": 14, "c": 21, "d": 22}
    listed = tree.entries["b"]
    assert isinstance(listed, Sequence)
    inner = listed.items[1]
    assert isinstance(inner, Mapping)
    assert {key: source.line for key, source in inner.keys.items()} == {"y": 16, "z": 19}
    flow = tree.entries["d"]
    assert isinstance(flow, Mapping)
    assert {key: source.line for key, source in flow.keys.items()} == {"e": 22, "f": 23}
    assert list(problems) == []


def test_yaml_inside_markdown_names_the_line_of_the_file() -> None:
    problems = Problems()
    assert parse_yaml("a: 1\nb: c: d\n", "modules/a.md", problems, first_line=40) is None
    assert [str(problem) for problem in problems] == [
        f"modules/a.md:41: not valid YAML: mapping values are not allowed in this context\n{SYNTAX}"
    ]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "%YAML 1.2\n"])
def test_yaml_without_a_value_is_a_fault(text: str) -> None:
    problems = Problems()
    assert parse_yaml(text, "a.yaml", problems) is None
    assert len(problems) == 1
