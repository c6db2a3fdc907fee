import re
from pathlib import Path

import pytest

from courseware.records.errors import HeadFileError
from courseware.records.events import Head
from courseware.records.heads import read_head, write_head

HEAD = Head(12, bytes(range(32)))


def refusal(path: Path, head: Head) -> str:
    before = path.read_bytes()
    with pytest.raises(HeadFileError) as raised:
        write_head(path, head)
    assert path.read_bytes() == before  # the evidence stays
    return str(raised.value).replace(str(path), "FILE")


def test_a_head_comes_back_from_its_file(tmp_path: Path) -> None:
    path = tmp_path / "head.json"
    write_head(path, HEAD)
    assert read_head(path) == HEAD
    assert path.read_text() == (
        '{\n  "format": "courseware/chain-head/1",\n  "seq": 12,\n  "hash": "' + bytes(range(32)).hex() + '"\n}\n'
    )
    write_head(path, HEAD)
    write_head(path, Head(13, bytes(32)))
    assert read_head(path) == Head(13, bytes(32))
    assert [found.name for found in tmp_path.iterdir()] == ["head.json"]


def test_a_later_head_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "head.json"
    write_head(path, HEAD)
    assert refusal(path, Head(9, bytes(32))) == (
        "FILE knows event 12, but the records end at event 9: events are missing; the file was left as it is\n"
        "    try: do not overwrite it, it is the evidence; "
        "put the last good copy of the records in place and verify that"
    )


def test_another_head_of_the_same_number_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "head.json"
    write_head(path, HEAD)
    assert refusal(path, Head(12, bytes(32))) == (
        "FILE knows another event 12 than the records have: the records were rewritten; the file was left as it is\n"
        "    try: do not overwrite it, it is the evidence; "
        "put the last good copy of the records in place and verify that"
    )


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"format": "courseware/chain-head/2", "seq": 1, "hash": "' + "00" * 32 + '"}',
     '{"format": "courseware/chain-head/1", "seq": true, "hash": "' + "00" * 32 + '"}',
     '{"format": "courseware/chain-head/1", "seq": -1, "hash": "' + "00" * 32 + '"}',
     '{"format": "courseware/chain-head/1", "seq": 1, "hash": "00"}'],
)  # fmt: skip
def test_what_is_no_head_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "head.json"
    path.write_text(text)
    message = f"{path} holds no chain head\n    try: name the file that was saved after an earlier verification"
    with pytest.raises(HeadFileError, match=f"^{re.escape(message)}$"):
        read_head(path)


def test_a_file_that_cannot_be_used(tmp_path: Path) -> None:
    with pytest.raises(HeadFileError) as raised:
        read_head(tmp_path / "none.json")
    assert str(raised.value).replace(str(tmp_path), "DIR") == (
        "the chain head DIR/none.json cannot be read or written: No such file or directory\n"
        "    try: check the name, and that you may use the folder"
    )
    with pytest.raises(HeadFileError):
        write_head(tmp_path / "none" / "head.json", HEAD)
