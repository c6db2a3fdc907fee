import importlib.resources
import json
import zlib
from typing import Any

import jsonschema
import pytest
from hypothesis import given, strategies

from courseware.quiz.response import (
    Response,
    ResponseError,
    check_of,
    check_text,
    make_response,
    read_response,
    response_bytes,
)

AGAIN = (
    "; try: ask the trainee to save the answers again from the quiz page and to send the new file, "
    "or to send the answer code"
)
RIGHT_FILE = "; try: choose the file that the quiz page saved; its name ends in .json"
SCHEMA = json.loads(importlib.resources.files("courseware.quiz").joinpath("response.schema.json").read_text("utf-8"))


def raw(**changes: Any) -> dict[str, Any]:
    response = make_response("F-1", {"1": ("00G",), "2": ("8.33 kV",), "3": ()}, "2026-11-25T08:00:00-05:00")
    return {**json.loads(response_bytes(response)), **changes}


def refused(data: bytes) -> str:
    with pytest.raises(ResponseError) as refusal:
        read_response(data)
    return str(refusal.value)


def test_the_crc_is_the_published_one() -> None:
    """The check value of CRC-32/ISO-HDLC for the nine digits (catalogue of parametrised CRC algorithms): cbf43926."""
    assert zlib.crc32(b"123456789") == 0xCBF43926
    assert check_of("123456789", {}) == "cbf43926"


def test_the_check_text_is_in_the_order_of_the_numbers() -> None:
    answers = {"10": ("A",), "9": ("B", "C"), "1": ()}
    assert check_text("F-1", answers) == "F-1\n1=\n9=B C\n10=A"


texts = strategies.text(strategies.characters(codec="utf-8"), max_size=8)


@given(
    texts,
    strategies.dictionaries(strategies.integers(1, 99).map(str), strategies.lists(texts, max_size=3).map(tuple)),
    texts,
)
def test_what_is_written_is_read_back(form: str, answers: dict[str, tuple[str, ...]], started: str) -> None:
    response = make_response(form, answers, started, started)
    data = response_bytes(response)
    assert read_response(data) == response
    assert response_bytes(read_response(data)) == data
    jsonschema.validate(json.loads(data), SCHEMA)


def test_the_schema_is_a_schema_and_refuses_what_the_reader_refuses() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(raw(), SCHEMA)
    changes: tuple[dict[str, Any], ...] = (
        {"format": "courseware/response/2"},
        {"form": 7},
        {"answers": []},
        {"answers": {"1": "00G"}},
        {"answers": {"01": ["00G"]}},
        {"answers": {"one": ["00G"]}},
        {"check": "CBF43926"},
        {"name": "T. Rainey"},
    )
    for change in changes:
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(raw(**change), SCHEMA)
        refused(json.dumps(raw(**change)).encode())


def test_every_changed_answer_is_found() -> None:
    found = raw(answers={"1": ["00H"], "2": ["8.33 kV"], "3": []})
    assert refused(json.dumps(found).encode()) == (
        f"the response file is damaged: its check is '{found['check']}', but its answers give "
        f"'{check_of('F-1', {'1': ('00H',), '2': ('8.33 kV',), '3': ()})}'" + AGAIN
    )


def test_every_flipped_bit_of_the_answers_is_found() -> None:
    data = response_bytes(make_response("F-1", {"1": ("00G",), "2": ("8.33",)}))
    harmless = 0
    for place in range(len(data)):
        for bit in range(8):
            changed = data[:place] + bytes([data[place] ^ 1 << bit]) + data[place + 1 :]
            try:
                response = read_response(changed)
            except ResponseError:
                continue
            harmless += 1
            assert (response.form, response.answers) == ("F-1", {"1": ("00G",), "2": ("8.33",)})
    assert harmless < 40  # white space, and times nobody noted


def test_every_cut_file_is_found() -> None:
    data = response_bytes(make_response("F-1", {"1": ("00G",)}))
    for length in range(len(data) - 1):  # the last byte is a line feed
        refused(data[:length])
    assert refused(data[:40]) == (
        "the response file is damaged: something is missing at its end or was changed inside" + AGAIN
    )


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"x" * 70_000, "the response file has 70000 bytes; a response has at most 65536" + RIGHT_FILE),
        (b"\xff\xd8\xff\xe0", "the response file is not readable text" + RIGHT_FILE),
        (b"[" * 60_000, "the response file is not readable text" + RIGHT_FILE),
        (b'"\\ud800"', "the response file is not readable text" + RIGHT_FILE),
        (b"[1, 2]", "the file is not a response" + RIGHT_FILE),
        (b'{"name": "x"}', "the file is not a response" + RIGHT_FILE),
    ],
)
def test_other_files_are_told_apart(data: bytes, message: str) -> None:
    assert refused(data) == message


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {"format": "courseware/response/2"},
            (
                "the response says its format is 'courseware/response/2'; this program reads 'courseware/response/1'; "
                "try: grade it with the version of the program that issued the form, or update this one"
            ),
        ),
        ({"answer": {}}, "the response holds 'answer', which is not part of a response; try: did you mean 'answers'?"),
        ({"name": "x"}, "the response holds 'name', which is not part of a response" + AGAIN),
        ({"check": 7}, "the response is damaged: 'check' is not text" + AGAIN),
        ({"answers": []}, "the response is damaged: 'answers' is not a list of answers by question" + AGAIN),
        (
            {"answers": {"1": "00G"}},
            "the response is damaged: the entry for question '1' is not a list of answers" + AGAIN,
        ),
        (
            {"answers": {"0": ["00G"]}},
            "the response is damaged: the entry for question '0' is not a list of answers" + AGAIN,
        ),
    ],
)
def test_wrong_parts_are_named(change: dict[str, Any], message: str) -> None:
    assert refused(json.dumps(raw(**change)).encode()) == message


@pytest.mark.parametrize("name", ["answers", "check", "finished", "form", "started"])
def test_missing_parts_are_named(name: str) -> None:
    found = raw()
    del found[name]
    assert refused(json.dumps(found).encode()) == f"the response is incomplete: '{name}' is missing" + AGAIN


def test_a_number_too_long_for_python_is_refused() -> None:
    refused(json.dumps(raw(answers={"9" * 5000: ["00G"]})).encode())


def test_the_times_are_kept() -> None:
    response = make_response("F-1", {}, "2026-11-25T08:00:00-05:00", "2026-11-25T08:20:00-05:00")
    assert isinstance(read_response(response_bytes(response)), Response)
    assert read_response(response_bytes(response)).finished == "2026-11-25T08:20:00-05:00"
