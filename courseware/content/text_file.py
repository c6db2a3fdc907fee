"""The bytes of a content file to text that is safe to parse, to print and to count lines in."""

import re
import stat
from pathlib import Path
from typing import Final

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.words import say

LARGEST_FILE: Final = 1_048_576
_BYTE_ORDER_MARK: Final = b"\xef\xbb\xbf"
# The printable characters of YAML 1.2.2 (https://yaml.org/spec/1.2.2/, production [1]), less the three line
# separators and the byte-order mark, which editors do not show: after one of them, no two tools count lines alike.
_UNPRINTABLE: Final = re.compile(
    "[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)


def read_text(path: Path, name: str, problems: Problems) -> str | None:
    """Read a content file as UTF-8.

    Parameters
    ----------
    path : Path
        The file.
    name : str
        Name to show in problems.
    problems : Problems
        Receives every fault found: too large, unreadable, another encoding.

    Returns
    -------
    str or None
        The text with LF line ends, whatever the file has; None if it cannot be read as text.
    """
    data = _read_bytes(path, name, problems)
    if data is None:
        return None
    start = Source(name, 1)
    if data.startswith(_BYTE_ORDER_MARK):
        problems.add(start, "", say("content.has-bom"), advice=say("content.not-utf8-try"))
        data = data.removeprefix(_BYTE_ORDER_MARK)
    if b"\x00" in data:  # UTF-16 without its mark, or no text at all: a report for each NUL helps nobody
        line = 1 + data[: data.index(b"\x00")].count(b"\n")
        problems.add(Source(name, line), "", say("content.has-nul"), advice=say("content.not-utf8-try"))
        return None
    try:
        return data.decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        line = 1 + data[: error.start].count(b"\n")
        found = say("content.not-utf8", byte=f"0x{data[error.start]:02x}", offset=error.start)
        problems.add(Source(name, line), "", found, advice=say("content.not-utf8-try"))
        return None


def _read_bytes(path: Path, name: str, problems: Problems) -> bytes | None:
    start = Source(name, 1)
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):  # reading a pipe would wait for ever
            problems.add(start, "", say("content.not-a-file"), advice=say("content.unreadable-try"))
            return None
        if found.st_size > LARGEST_FILE:
            problems.add(
                start, "", say("content.too-large", size=found.st_size),
                say("content.too-large-allowed", limit=LARGEST_FILE), say("content.too-large-try"),
            )  # fmt: skip
            return None
        return path.read_bytes()
    except OSError as error:
        reason = error.strerror or str(error)
        problems.add(start, "", say("content.unreadable", reason=reason), advice=say("content.unreadable-try"))
        return None


def printable(text: str, file: str, problems: Problems, first_line: int = 1) -> str:
    """Report characters that no one can see, and put U+FFFD in their place.

    Parameters
    ----------
    text : str
        Text with LF line ends.
    file : str
        Name to show in problems.
    problems : Problems
        Receives one fault for each such character, where it stands first.
    first_line : int
        Line number [-] of the text's first line in ``file``.

    Returns
    -------
    str
        The text with nothing but printable characters, tabs and line ends.
    """
    reported = set()
    for match in _UNPRINTABLE.finditer(text):
        if match[0] not in reported:
            reported.add(match[0])
            problems.add(
                Source(file, first_line + text.count("\n", 0, match.start())), "",
                say("content.unprintable", code=f"U+{ord(match[0]):04X}"), say("content.unprintable-allowed"),
                say("content.unprintable-try"),
            )  # fmt: skip
    return _UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", text) if reported else text
