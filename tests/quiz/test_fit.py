import dataclasses

import pytest

from courseware.quiz.fit import fit
from courseware.quiz.form import Form, Item, Option
from courseware.quiz.response import ResponseError, make_response

Answers = dict[str, tuple[str, ...]]
AGAIN = (
    "; try: ask the trainee to save the answers again from the quiz page and to send the new file, "
    "or to send the answer code"
)


def test_right_wrong_and_blank_answers_fit(form: Form, right: Answers) -> None:
    fit(form, make_response(form.id, right))
    fit(form, make_response(form.id, {**right, "1": ("7Q2",), "2": ("-4",), "4": ("F7J", "D5E", "C0C")}))
    fit(form, make_response(form.id, dict.fromkeys(right, ())))


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"1": ("9G4",)}, "'9G4' is no answer to question 1" + AGAIN),
        (
            {"1": ("00G", "7Q2")},
            (
                "question 1 has 2 answers: 00G, 7Q2; it takes one; "
                "try: ask the trainee which one counts, and type that one alone"
            ),
        ),
        (
            {"2": ("eight",)},
            "question 2: 'eight' is not a number; try: write it with digits, such as 8.5 or 8,5 kV",
        ),
        (
            {"4": ("C0C", "D5E", "C0C")},
            (
                "question 4 names the step C0C twice; try: ask the trainee for the whole order; "
                "if the question was left blank on purpose, type 4=-"
            ),
        ),
        ({"4": ("C0C", "D5E", "9G4")}, "'9G4' is no answer to question 4" + AGAIN),
        (
            {"7": ("00G",)},
            (
                "there is an answer to question 7, but form 3BTN-8PS5 has questions 1 to 4; "
                "try: look up the form number on the paper or the file, and grade with that form"
            ),
        ),
    ],
)
def test_answers_that_a_question_does_not_take(change: Answers, message: str, form: Form, right: Answers) -> None:
    with pytest.raises(ResponseError) as refusal:
        fit(form, make_response(form.id, {**right, **change}))
    assert str(refusal.value) == f"{refusal.value.found}; try: {refusal.value.advice}" == message


def test_a_question_left_out_is_not_the_same_as_left_blank(form: Form, right: Answers) -> None:
    del right["3"]
    with pytest.raises(ResponseError) as refusal:
        fit(form, make_response(form.id, right))
    assert str(refusal.value) == (
        "question 3 has no answer; try: ask the trainee; if it was left blank on purpose, type 3=-"
    )


def test_another_forms_answers_are_refused(form: Form, right: Answers) -> None:
    with pytest.raises(ResponseError) as refusal:
        fit(form, make_response("7RZC-8PS5", right))
    assert str(refusal.value) == (
        "the answers are for form 7RZC-8PS5, but this is form 3BTN-8PS5; try: grade them with form 7RZC-8PS5 from the "
        "archive of issued forms; if that number is not yours, ask who issued it"
    )


def several(form: Form) -> Form:
    """Return the form with a fifth question that takes every answer that applies."""
    options = (Option("G4R", "Air"), Option("H9S", "Heat"), Option("J1T", "Spark"), Option("K6V", "Light"))
    item = Item(5, "multiple-choice", "name-it", ("Which? Choose every one.",), None, options, "", 2)
    return dataclasses.replace(form, items=(*form.items, item))


def test_a_question_with_several_answers_takes_each_of_its_options_once(form: Form, right: Answers) -> None:
    whole = several(form)
    for given in (("G4R",), ("H9S", "G4R"), ("G4R", "H9S", "J1T", "K6V"), ()):
        fit(whole, make_response(form.id, {**right, "5": given}))


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (("G4R", "9G4"), "'9G4' is no answer to question 5" + AGAIN),
        (("G4R", "H9S", "G4R"), "question 5 names the answer G4R twice; try: type every answer of the question once"),
    ],
)
def test_several_answers_that_the_question_does_not_take(
    given: tuple[str, ...], message: str, form: Form, right: Answers
) -> None:
    with pytest.raises(ResponseError) as refusal:
        fit(several(form), make_response(form.id, {**right, "5": given}))
    assert str(refusal.value) == message
