"""Bytes to text: each fault of a file told whole, and lines counted as an editor counts them."""

import os
from pathlib import Path

import pytest

from courseware.content.problems import Problems
from courseware.content.text_file import LARGEST_FILE, printable, read_text
from tests.content.sample import SOUND, report_on, report_on_bench, sound

SAVE = "    try: save the file as UTF-8 (without BOM) in your editor"
UNPRINTABLE = (
    "    allowed: printable characters, tabs and line ends\n    try: delete the character, or type the line again"
)
FOUR = "'minutes' is the text 'four'\n    allowed: a number"

# name of the fault -> (the bytes of the damaged file, the whole report)
FAULTS = {
    "byte-order mark, and a fault after it": (
        b"\xef\xbb\xbf" + sound(minutes="minutes: four").encode(),
        (
            f"question_bank/b.yaml:1: the file starts with a byte-order mark\n{SAVE}\n"
            f"question_bank/b.yaml:4: bench: {FOUR}"
        ),
    ),
    "UTF-16 with its mark": (
        SOUND.encode("utf-16"),
        f"question_bank/b.yaml:1: the file is not UTF-8 text: it holds NUL bytes, as UTF-16 does\n{SAVE}",
    ),
    "UTF-16 without its mark": (
        SOUND.encode("utf-16-be"),
        f"question_bank/b.yaml:1: the file is not UTF-8 text: it holds NUL bytes, as UTF-16 does\n{SAVE}",
    ),
    "UTF-32": (
        SOUND.encode("utf-32"),
        f"question_bank/b.yaml:1: the file is not UTF-8 text: it holds NUL bytes, as UTF-16 does\n{SAVE}",
    ),
    "NUL on a later line": (
        SOUND.encode() + b"x: \x00\n",
        f"question_bank/b.yaml:21: the file is not UTF-8 text: it holds NUL bytes, as UTF-16 does\n{SAVE}",
    ),
    "Windows code page": (
        sound(title="title: Look at 45°").encode("cp1252"),
        f"question_bank/b.yaml:3: the file is not UTF-8: byte 0xb0 at offset 60\n{SAVE}",
    ),
    "invisible characters": (
        sound(title="title: Lo\x07ok \x07", x="tries: 1 \x0b", minutes="minutes: four").encode(),
        (
            f"question_bank/b.yaml:3: the invisible character U+0007 is used\n{UNPRINTABLE}\n"
            f"question_bank/b.yaml:4: bench: {FOUR}\n"
            f"question_bank/b.yaml:21: the invisible character U+000B is used\n{UNPRINTABLE}\n"
            "question_bank/b.yaml:21: the key 'tries' is written twice; first on line 5\n    try: keep one of the two"
        ),
    ),
    "line separators that editors do not show": (
        sound(title="title: a\u2028b\u2029c\x85d\ufeffe", minutes="minutes: four").encode(),
        "".join(
            f"question_bank/b.yaml:3: the invisible character U+{code} is used\n{UNPRINTABLE}\n"
            for code in ("0085", "2028", "2029", "FEFF")
        )
        + f"question_bank/b.yaml:4: bench: {FOUR}",
    ),
    "empty file": (
        b"",
        "question_bank/b.yaml:1: the file holds nothing\n    try: write at least one entry, or delete the file",
    ),
    "file of comments": (
        b"# soon\n\n",
        "question_bank/b.yaml:1: the file holds nothing\n    try: write at least one entry, or delete the file",
    ),
    "over-large file": (
        b"#" * (LARGEST_FILE + 1),
        (
            "question_bank/b.yaml:1: the file has 1048577 bytes\n    allowed: at most 1048576 bytes\n"
            "    try: split it into several files in the same folder"
        ),
    ),
    "lines ended by CR LF": (
        sound(minutes="minutes: four").replace("\n", "\r\n").encode(),
        f"question_bank/b.yaml:4: bench: {FOUR}",
    ),
    "lines ended by CR": (
        sound(minutes="minutes: four").replace("\n", "\r").encode(),
        f"question_bank/b.yaml:4: bench: {FOUR}",
    ),
    "fault of YAML after CR LF": (
        sound(minutes="minutes: four: five").replace("\n", "\r\n").encode(),
        (
            "question_bank/b.yaml:4: not valid YAML: mapping values are not allowed in this context\n"
            "    try: check the indentation and the quotes on this line and the one above it"
        ),
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_the_whole_message_of_each_fault(fault: str, tmp_path: Path) -> None:
    damaged, report = FAULTS[fault]
    assert report_on_bench(tmp_path, damaged) == report


def test_the_largest_file_allowed_is_read(tmp_path: Path) -> None:
    full = SOUND + "#" * (LARGEST_FILE - len(SOUND))
    assert report_on_bench(tmp_path, full) == ""


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert report_on_bench(tmp_path, SOUND) == (
        "question_bank/b.yaml:1: the file could not be read: Permission denied\n"
        "    try: check that it is there and that you may read it"
    )


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="Windows has no named pipes in folders")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "question_bank").mkdir()
    os.mkfifo(tmp_path / "question_bank" / "b.yaml")
    assert report_on(tmp_path, {}) == (
        "question_bank/b.yaml:1: this is not an ordinary file\n    try: check that it is there and that you may read it"
    )


def test_text_comes_with_plain_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_bytes("a\r\nb\rc\nd ½ 𝛺\t".encode())
    problems = Problems()
    assert read_text(path, "a.md", problems) == "a\nb\nc\nd ½ 𝛺\t"
    assert list(problems) == []


def test_what_nobody_can_see_is_replaced_by_what_everybody_sees() -> None:
    problems = Problems()
    assert printable("a\x00b\n\x7f", "a.md", problems, first_line=7) == "a\ufffdb\n\ufffd"
    assert [(problem.source.line, problem.found) for problem in problems] == [
        (7, "the invisible character U+0000 is used"),
        (8, "the invisible character U+007F is used"),
    ]
