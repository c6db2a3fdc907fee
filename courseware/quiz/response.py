"""A trainee's answers, however they came: from the HTML quiz, a typed code or a paper sheet.

The JSON format is published in ``response.schema.json`` beside this module. Its ``check`` is a CRC-32
(the CRC of ISO 3309 and ITU-T V.42, as in PNG and gzip) over the text that :func:`check_text` makes, so that a
browser can compute it in a few lines. It finds damage, not forgery.
"""

import json
import re
import zlib
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any, Final

from courseware.content.problems import nearest
from courseware.content.refusal import Refusal
from courseware.content.words import say

RESPONSE_FORMAT: Final = "courseware/response/1"
LARGEST_RESPONSE: Final = 65_536
_NUMBER: Final = re.compile(r"[1-9][0-9]{0,2}")


class ResponseError(Refusal):
    """A response that cannot be graded; its text tells the trainer what is wrong, then what to try."""


@dataclass(frozen=True, slots=True)
class Response:
    """The answers to one form.

    Attributes
    ----------
    form : str
        Form number.
    answers : mapping of str to tuple of str
        By item number: one tag; for ``multiple-choice`` every chosen tag, in the order of the form; for ``numeric`` the
        number as the trainee wrote it; for ``ordering`` all tags in the trainee's order. Every item of the form has an
        entry; one left blank on purpose has an empty tuple.
    started, finished : str
        When, ISO 8601 with offset; empty where nobody noted it (paper).
    check : str
        CRC-32 of :func:`check_text`, eight lower-case hexadecimal digits.
    format : str
        ``courseware/response/1``.
    """

    form: str
    answers: Mapping[str, tuple[str, ...]]
    started: str
    finished: str
    check: str
    format: str = RESPONSE_FORMAT


def check_text(form: str, answers: Mapping[str, tuple[str, ...]]) -> str:
    r"""Return the text that the check is computed over.

    The form number on a line of its own, then a line for each item, by number: the number, ``=``, its answers
    joined by single spaces. Lines are joined by a line feed; there is none at the end.

    Examples
    --------
    >>> check_text("7K3Q-9XA2", {"10": ("9G4",), "2": ("8.33 kV",), "1": ()})
    '7K3Q-9XA2\n1=\n2=8.33 kV\n10=9G4'
    """
    numbers = sorted(answers, key=int)
    return "\n".join([form, *(f"{number}={' '.join(answers[number])}" for number in numbers)])


def check_of(form: str, answers: Mapping[str, tuple[str, ...]]) -> str:
    """Return the CRC-32 of :func:`check_text`, eight lower-case hexadecimal digits."""
    return f"{zlib.crc32(check_text(form, answers).encode('utf-8')):08x}"


def make_response(form: str, answers: Mapping[str, tuple[str, ...]], started: str = "", finished: str = "") -> Response:
    """Return a response with its check computed."""
    return Response(form, dict(answers), started, finished, check_of(form, answers))


def response_bytes(response: Response) -> bytes:
    """Return the response as a JSON file a person can read, UTF-8; :func:`read_response` reads it back."""
    return (json.dumps(asdict(response), indent=1, sort_keys=True, ensure_ascii=False) + "\n").encode("utf-8")


def read_response(data: bytes) -> Response:
    """Read a response file.

    Parameters
    ----------
    data : bytes
        The file as it came.

    Returns
    -------
    Response
        Whole and undamaged; whether it fits a form is for :func:`courseware.quiz.fit.fit` to say.

    Raises
    ------
    ResponseError
        If the file is too large, no response, of another version, incomplete or damaged.
    """
    raw = _parse(data)
    _hold_shape(raw)
    answers = {number: tuple(given) for number, given in raw["answers"].items()}
    response = Response(raw["form"], answers, raw["started"], raw["finished"], raw["check"])
    expected = check_of(response.form, response.answers)
    if response.check != expected:
        raise ResponseError(
            say("quiz.response-damaged", found=response.check, expected=expected), say("quiz.send-again")
        )
    return response


def _parse(data: bytes) -> dict[str, Any]:
    if len(data) > LARGEST_RESPONSE:
        raise ResponseError(
            say("quiz.response-too-large", size=len(data), limit=LARGEST_RESPONSE), say("quiz.response-right-file")
        )
    try:
        raw = json.loads(data.decode("utf-8"))
        json.dumps(raw, ensure_ascii=False).encode("utf-8")  # an escape may spell half a character
    except (UnicodeError, RecursionError) as error:
        raise ResponseError(say("quiz.response-no-text"), say("quiz.response-right-file")) from error
    except ValueError as error:
        raise ResponseError(say("quiz.response-cut"), say("quiz.send-again")) from error
    if not isinstance(raw, dict) or not isinstance(raw.get("format"), str):
        raise ResponseError(say("quiz.response-no-response"), say("quiz.response-right-file"))
    if raw["format"] != RESPONSE_FORMAT:
        raise ResponseError(
            say("quiz.response-other-format", found=raw["format"], expected=RESPONSE_FORMAT),
            say("quiz.response-other-format-try"),
        )
    return raw


def _hold_shape(raw: dict[str, Any]) -> None:
    known = ("answers", "check", "finished", "form", "format", "started")
    for name in known:
        if name not in raw:
            raise ResponseError(say("quiz.response-lacks", name=name), say("quiz.send-again"))
    for name in sorted(raw):
        if name not in known:
            raise ResponseError(say("quiz.response-extra", name=name), nearest(name, known) or say("quiz.send-again"))
        if name != "answers" and not isinstance(raw[name], str):
            raise ResponseError(say("quiz.response-not-text", name=name), say("quiz.send-again"))
    if not isinstance(raw["answers"], dict):
        raise ResponseError(say("quiz.response-no-answers"), say("quiz.send-again"))
    for number, given in raw["answers"].items():
        whole = _NUMBER.fullmatch(number) is not None
        texts = isinstance(given, list) and all(isinstance(text, str) for text in given)
        if not whole or not texts:
            raise ResponseError(say("quiz.response-bad-answer", number=number), say("quiz.send-again"))
