import json
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.content.canonical import LARGEST, canonical, read_canonical

WHOLE = st.integers(-LARGEST, LARGEST)
TEXT = st.text(st.characters(exclude_categories=["Cs"]))
NAMES = st.text(st.characters(max_codepoint=127))
VALUES: st.SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | WHOLE | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES, inner, max_size=4),
    max_leaves=12,
)


def test_strings_are_escaped_as_rfc_8785_prints_them() -> None:
    # RFC 8785, section 3.2.2, the member "string" of its sample (from memory).
    value = {"string": '€$\u000f\u000aA\'B"\\\\"/'}
    assert canonical(value) == '{"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'.encode()


def test_literals_and_key_order() -> None:
    # RFC 8785, section 3.2.2 (from memory): "literals": [null, true, false], keys sorted.
    assert canonical({"numbers": [3, -1, 0], "literals": [None, True, False]}) == (
        b'{"literals":[null,true,false],"numbers":[3,-1,0]}'
    )


@given(VALUES)
def test_reading_gives_the_value_back(value: Any) -> None:
    data = canonical(value)
    assert read_canonical(data) == value
    assert canonical(read_canonical(data)) == data
    assert json.loads(data) == value


@pytest.mark.parametrize(
    "data",
    [
        b'{"b":1,"a":2}',
        b'{"a":1,"a":1}',
        b'{"a": 1}',
        b'{"a":1}\n',
        b'\xef\xbb\xbf{"a":1}',
        b'{"a":"\\u0041"}',
        b'{"a":1.0}',
        b'{"a":1e2}',
        b'{"a":NaN}',
        b'{"a":9007199254740993}',
        b'{"a":"\xff"}',
        b'{"a":"\\ud800"}',
        b"",
    ],
)
def test_any_other_text_of_a_value_is_refused(data: bytes) -> None:
    with pytest.raises(ValueError, match=r"."):
        read_canonical(data)


@pytest.mark.parametrize(
    ("value", "message"),
    [
        (0.5, "float has no canonical form"),
        ({"a": [1, {2.5}]}, "set has no canonical form"),
        ({1: 2}, "1 is not an ASCII key"),
        ({"é": 2}, "'é' is not an ASCII key"),
        (2**53, "9007199254740992 is beyond 2^53 - 1"),
        (-(2**53), "-9007199254740992 is beyond 2^53 - 1"),
    ],
)
def test_values_without_one_text_are_refused(value: object, message: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        canonical(value)
