"""Plain scalars against the standard: YAML 1.2.2, section 10.3.2."""

import math

import pytest

from courseware.content.core_schema import resolve
from courseware.content.problems import Problems
from courseware.content.tree import Mapping, Scalar, Sequence, parse_yaml

# YAML 1.2.2, Example 10.9 "Core Tag Resolution", https://yaml.org/spec/1.2.2/#1032-tag-resolution
EXAMPLE_10_9 = """\
A null: null
Also a null: # Empty
Not a null: ""
Booleans: [ true, True, false, FALSE ]
Integers: [ 0, 0o7, 0x3A, -19 ]
Floats: [
  0., -0.0, .5, +12e03, -2E+05 ]
Also floats: [
  .inf, -.Inf, +.INF, .NAN ]
"""


def test_example_10_9_of_the_standard() -> None:
    problems = Problems()
    tree = parse_yaml(EXAMPLE_10_9, "example.yaml", problems)
    # The tree takes the standard's last line for what it is, and refuses it: no instrument shows infinity.
    assert [problem.found for problem in problems] == [
        f"the number {text} is used" for text in ("+.INF", "-.Inf", ".NAN", ".inf")
    ]
    assert isinstance(tree, Mapping)

    def values(key: str) -> list[object]:
        node = tree.entries[key]
        assert isinstance(node, Sequence)
        return [item.value for item in node.items if isinstance(item, Scalar)]

    singles = [tree.entries[key] for key in ("A null", "Also a null", "Not a null")]
    assert [node.value for node in singles if isinstance(node, Scalar)] == [None, None, ""]
    assert values("Booleans") == [True, True, False, False]
    assert repr(values("Integers")) == "[0, 7, 58, -19]"  # repr: 0 == 0.0 == False would hide a wrong type
    assert repr(values("Floats")) == "[0.0, -0.0, 0.5, 12000.0, -200000.0]"
    assert repr([resolve(text) for text in (".inf", "-.Inf", "+.INF", ".NAN")]) == "[inf, -inf, inf, nan]"


# The regular expressions of the table in the same section, tried at their edges.
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("~", None), ("Null", None), ("NULL", None), ("", None),
        ("TRUE", True), ("False", False),
        ("012", 12), ("+7", 7), ("-0", 0), ("0x10", 16), ("0o14", 12),
        ("1e3", 1000.0), ("1.", 1.0), (".5", 0.5), ("-.5e-1", -0.05), ("1_000", "1_000"),
    ],
)  # fmt: skip
def test_words_that_mean_a_value(text: str, value: object) -> None:
    assert repr(resolve(text)) == repr(value)


# Flags, numbers in base 60, and dates of YAML 1.1 (https://yaml.org/type/): words in YAML 1.2.
@pytest.mark.parametrize(
    "text",
    [
        "on", "off", "On", "OFF", "yes", "no", "Yes", "NO", "y", "n", "tRUE", "nULL",
        "12:30", "190:20:30", "2026-11-25", "2026-11-25 10:30:00",
        "0b1010", "0x", "0o8", "-0x10", "1,000", "½", "٣", "1e", "e3", ".", "+", "-", "1.2.3",
        ".iNF", "+.nan", "8.5 kV",
    ],
)  # fmt: skip
def test_words_that_stay_words(text: str) -> None:
    assert resolve(text) == text


def test_a_whole_number_too_long_to_count_with_becomes_a_float() -> None:
    assert resolve("9" * 18) == 10**18 - 1
    assert isinstance(resolve("9" * 19), float)
    assert math.isinf(float(str(resolve("9" * 5000))))


def test_words_in_quotes_and_blocks_stay_words() -> None:
    problems = Problems()
    tree = parse_yaml("a: '12'\nb: \"true\"\nc: |\n  5\nd: ''\n", "a.yaml", problems)
    assert isinstance(tree, Mapping)
    assert [node.value for node in tree.entries.values() if isinstance(node, Scalar)] == ["12", "true", "5\n", ""]
    assert list(problems) == []
