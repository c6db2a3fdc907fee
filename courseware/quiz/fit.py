"""Whether a response answers a form: the right form, every question, and only what may be answered there."""

from collections.abc import Callable, Mapping
from typing import Final

from courseware.content.words import say
from courseware.quiz.form import Form, Item
from courseware.quiz.number import read_number
from courseware.quiz.response import Response, ResponseError

ORDERING: Final = "ordering"
NUMERIC: Final = "numeric"
SEVERAL: Final = "multiple-choice"


def fit(form: Form, response: Response) -> None:
    """Hold a response against the form it is for.

    Parameters
    ----------
    form : Form
        As issued.
    response : Response
        From any of the three ways; a question left blank on purpose has an empty answer.

    Raises
    ------
    ResponseError
        If it is for another form, leaves a question out, or gives an answer that the question does not take. The first
        fault in the order of the questions is told.
    """
    if response.form != form.id:
        raise ResponseError(
            say("quiz.other-form", found=response.form, expected=form.id),
            say("quiz.other-form-try", found=response.form),
        )
    numbers = {str(item.number) for item in form.items}
    for number in sorted(response.answers, key=int):
        if number not in numbers:
            raise ResponseError(
                say("quiz.no-such-question", number=number, form=form.id, last=len(form.items)),
                say("quiz.no-such-question-try"),
            )
    for item in form.items:
        if str(item.number) not in response.answers:
            raise ResponseError(
                say("quiz.not-answered", number=item.number), say("quiz.not-answered-try", number=item.number)
            )
        given = response.answers[str(item.number)]
        if given:
            _FITS.get(item.kind, _fit_choice)(item, given)


def _one(item: Item, given: tuple[str, ...]) -> str:
    if len(given) > 1:
        raise ResponseError(
            say("quiz.one-answer", number=item.number, count=len(given), found=", ".join(given)),
            say("quiz.one-answer-try"),
        )
    return given[0]


def _fit_choice(item: Item, given: tuple[str, ...]) -> None:
    _hold_option(item, _one(item, given))


def _fit_number(item: Item, given: tuple[str, ...]) -> None:
    read_number(_one(item, given), item)


def _fit_several(item: Item, given: tuple[str, ...]) -> None:
    for place, tag in enumerate(given):
        _hold_option(item, tag)
        if tag in given[:place]:
            raise ResponseError(say("quiz.answer-twice", number=item.number, found=tag), say("quiz.answer-twice-try"))


def _fit_order(item: Item, given: tuple[str, ...]) -> None:
    for place, tag in enumerate(given):
        _hold_option(item, tag)
        if tag in given[:place]:
            raise ResponseError(
                say("quiz.step-twice", number=item.number, found=tag), say("quiz.steps-try", number=item.number)
            )
    missing = [option.tag for option in item.options if option.tag not in given]
    if missing:
        raise ResponseError(
            say("quiz.steps-missing", number=item.number, found=", ".join(missing)),
            say("quiz.steps-try", number=item.number),
        )


def _hold_option(item: Item, tag: str) -> None:
    if all(tag != option.tag for option in item.options):
        raise ResponseError(say("quiz.not-an-option", number=item.number, found=tag), say("quiz.send-again"))


_FITS: Final[Mapping[str, Callable[[Item, tuple[str, ...]], None]]] = {
    NUMERIC: _fit_number,
    ORDERING: _fit_order,
    SEVERAL: _fit_several,
}
