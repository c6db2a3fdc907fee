"""Answers as a short code that a person writes and types, where no script runs.

``7K3Q-9XA2 9G4 2=8.5/13 K07 3=- /4``: the form number; the three characters printed beside each chosen answer (every
one that was chosen, where several may be right; for a question about order, those of all steps, in order); for a
number, the question, ``=``, the number, a slash and the sum of its digits; ``=-`` for a question left blank on
purpose; last, a slash and how many fields stand between. One wrong character, two swapped ones, a wrong digit and a
field left out are all found without computing anything but sums.
"""

import re
from collections.abc import Mapping
from typing import Final

from courseware.content.words import say
from courseware.quiz.base32 import read_as
from courseware.quiz.fit import NUMERIC, SEVERAL, fit
from courseware.quiz.form import Form, Item
from courseware.quiz.number import number_part
from courseware.quiz.response import Response, ResponseError, make_response

_EQUALS: Final = re.compile(r"\s*=\s*")
_COUNT: Final = re.compile(r"/([0-9]{1,4})")
_NUMERIC: Final = re.compile(r"([1-9][0-9]{0,2})=([^/\s]+)(?:/([0-9]{1,3}))?")
_TAG: Final = re.compile(r"[0-9A-Z]{3}")
_BLANK: Final = "-"


def make_answer_code(form: Form, answers: Mapping[str, tuple[str, ...]]) -> str:
    """Return the answer code of some answers.

    Parameters
    ----------
    form : Form
        The form they answer.
    answers : mapping of str to tuple of str
        By item number, as in a :class:`~courseware.quiz.response.Response`; every item has an entry.
    """
    fields: list[str] = []
    for item in form.items:
        given = answers[str(item.number)]
        if not given:
            fields.append(f"{item.number}={_BLANK}")
        elif item.kind == NUMERIC:
            value = number_part(given[0])
            fields.append(f"{item.number}={value}/{digit_sum(value)}")
        else:
            fields.extend(given)
    return " ".join([form.id, *fields, f"/{len(fields)}"])


def digit_sum(text: str) -> int:
    """Return the sum of the decimal digits in a text [-].

    Examples
    --------
    >>> digit_sum("8.33")
    14
    """
    return sum(int(character) for character in text if character in "0123456789")


def form_of_code(text: str) -> str:
    """Return the form number that an answer code starts with, so that the form can be looked up.

    Raises
    ------
    ResponseError
        If nothing was typed.
    """
    words = text.split()
    if not words:
        raise ResponseError(say("quiz.code-empty"), say("quiz.code-try", count=1))
    return read_as(words[0])


def parse_answer_code(text: str, form: Form) -> Response:
    """Read a typed answer code.

    Parameters
    ----------
    text : str
        As typed, in capitals or not, with any spaces and line breaks between fields.
    form : Form
        The form that it says it answers.

    Returns
    -------
    Response
        The same as the HTML quiz would have made of these answers; when it was answered is not known.

    Raises
    ------
    ResponseError
        If a field is damaged, missing or not of this form, or the answers do not fit the form.
    """
    text = _EQUALS.sub("=", text)
    found = form_of_code(text)
    if found != read_as(form.id):
        raise ResponseError(
            say("quiz.other-form", found=found, expected=form.id), say("quiz.other-form-try", found=found)
        )
    fields = _counted(text.split()[1:])
    by_tag = {option.tag: item for item in form.items for option in item.options}
    answers: dict[str, list[str]] = {}
    for field in fields:
        if "=" in field:
            _add_number(field, form, answers)
        else:
            _add_tag(field, form, by_tag, answers)
    for item in form.items:
        if item.kind == SEVERAL and str(item.number) in answers:  # typed in any order, kept in the form's
            given = answers[str(item.number)]
            answers[str(item.number)] = [option.tag for option in item.options if option.tag in given]
    response = make_response(form.id, {number: tuple(given) for number, given in answers.items()})
    fit(form, response)
    return response


def _counted(words: list[str]) -> list[str]:
    """Return the fields between form number and count, which must be as many as the count says."""
    fields = [word for word in words if not word.startswith("/")]
    count = _COUNT.fullmatch(words[-1]) if words else None
    if count is None or len(fields) != len(words) - 1:
        raise ResponseError(say("quiz.code-short"), say("quiz.code-try", count=len(fields)))
    if int(count[1]) != len(fields):
        raise ResponseError(say("quiz.code-count", said=int(count[1]), typed=len(fields)), say("quiz.code-count-try"))
    return fields


def _add_tag(field: str, form: Form, by_tag: Mapping[str, Item], answers: dict[str, list[str]]) -> None:
    tag = read_as(field)
    if not _TAG.fullmatch(tag):
        raise ResponseError(say("quiz.code-bad-field", found=field), say("quiz.code-bad-field-try"))
    if tag not in by_tag:
        near = [known for known in by_tag if _is_near(tag, known)]
        advice = (
            say("quiz.code-near-tag", near=near[0], number=by_tag[near[0]].number)
            if len(near) == 1
            else say("quiz.code-far-tag")
        )
        raise ResponseError(say("quiz.code-unknown-tag", found=tag, form=form.id), advice)
    number = str(by_tag[tag].number)
    given = answers.get(number)
    if given is not None and not given:
        raise ResponseError(say("quiz.code-number-twice", number=number, found=tag), say("quiz.one-answer-try"))
    if given and tag in given:
        raise ResponseError(say("quiz.code-tag-twice", found=tag), say("quiz.code-tag-twice-try"))
    answers.setdefault(number, []).append(tag)


def _is_near(typed: str, known: str) -> bool:
    """Say whether one character differs, or two neighbours are swapped."""
    differ = [place for place, (a, b) in enumerate(zip(typed, known, strict=True)) if a != b]
    if len(differ) == 1:
        return True
    first, last = differ[0], differ[-1]
    return last == first + 1 and (typed[first], typed[last]) == (known[last], known[first])


def _add_number(field: str, form: Form, answers: dict[str, list[str]]) -> None:
    parts = _NUMERIC.fullmatch(field)
    if parts is None:
        raise ResponseError(say("quiz.code-bad-field", found=field), say("quiz.code-bad-field-try"))
    number, value, said = parts.groups()
    item = next((item for item in form.items if str(item.number) == number), None)
    if item is None:
        raise ResponseError(
            say("quiz.no-such-question", number=number, form=form.id, last=len(form.items)),
            say("quiz.no-such-question-try"),
        )
    if number in answers:
        raise ResponseError(say("quiz.code-number-twice", number=number, found=field), say("quiz.one-answer-try"))
    if value == _BLANK and said is None:
        answers[number] = []
        return
    if item.kind != NUMERIC:
        tags = ", ".join(option.tag for option in item.options)
        raise ResponseError(say("quiz.code-not-numeric", number=number, tags=tags), say("quiz.code-not-numeric-try"))
    _hold_sum(field, number, value, said)
    answers[number] = [value]


def _hold_sum(field: str, number: str, value: str, said: str | None) -> None:
    total = digit_sum(value)
    if said is None:
        raise ResponseError(
            say("quiz.code-no-sum", found=field),
            say("quiz.code-no-sum-try", number=number, value=value, sum=total),
        )
    if int(said) != total:
        raise ResponseError(
            say("quiz.code-wrong-sum", found=field, sum=total, said=int(said)), say("quiz.code-wrong-sum-try")
        )
