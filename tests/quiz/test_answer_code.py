import dataclasses

import pytest

from courseware.quiz.answer_code import form_of_code, make_answer_code, parse_answer_code
from courseware.quiz.base32 import ALPHABET, draw_words
from courseware.quiz.chance import open_chance
from courseware.quiz.form import Form, Option
from courseware.quiz.response import ResponseError, make_response
from tests.quiz.test_fit import several

Answers = dict[str, tuple[str, ...]]
CODE = "3BTN-8PS5 00G 2=8.33/14 9G4 C0C D5E F7J /6"


def refused(text: str, form: Form) -> str:
    with pytest.raises(ResponseError) as refusal:
        parse_answer_code(text, form)
    return str(refusal.value)


def test_a_code_is_made_and_read_back(form: Form, right: Answers) -> None:
    assert make_answer_code(form, right) == CODE
    assert parse_answer_code(CODE, form) == make_response(form.id, right)


def test_a_blank_question_is_said_to_be_blank(form: Form, right: Answers) -> None:
    blank: Answers = {**right, "1": (), "4": ()}
    code = make_answer_code(form, blank)
    assert code == "3BTN-8PS5 1=- 2=8.33/14 9G4 4=- /4"
    assert parse_answer_code(code, form) == make_response(form.id, blank)


@pytest.mark.parametrize(
    "text",
    [
        "3btn-8ps5 oog 2=8.33/14 9g4 coc d5e f7j /6",
        "  3BTN-8PS5\n00G\t2 = 8.33/14   9G4 C0C\nD5E F7J\n/6\n",
        "3BTN-8PS5 C0C 9G4 D5E 00G F7J 2=8.33/14 /6",
    ],
)
def test_spelling_spacing_and_the_order_of_questions_do_not_matter(text: str, form: Form, right: Answers) -> None:
    assert parse_answer_code(text, form) == make_response(form.id, right)


def test_a_number_may_bring_its_unit_and_a_comma(form: Form, right: Answers) -> None:
    response = parse_answer_code(CODE.replace("8.33", "8,33kV"), form)
    assert response.answers["2"] == ("8,33kV",)
    assert make_answer_code(form, {**right, "2": ("8,33 kV",)}) == CODE.replace("8.33", "8,33")


def test_the_form_is_looked_up_by_the_first_field() -> None:
    assert form_of_code(" 3btn-8ps5 00G") == "3BTN-8PS5"
    with pytest.raises(ResponseError) as refusal:
        form_of_code("  ")
    assert str(refusal.value) == (
        "no answer code was typed; try: type it again from the sheet: form number, answers, and at the end /1"
    )


def real_tags(form: Form) -> Form:
    """Return the form with tags that are words of the code, as the drawn forms have."""
    words = iter(draw_words(40, open_chance("tags")))
    return dataclasses.replace(
        form,
        items=tuple(
            dataclasses.replace(item, options=tuple(Option(next(words), option.text) for option in item.options))
            for item in form.items
        ),
    )


def test_every_single_wrong_character_of_a_tag_is_found_and_the_right_one_is_named(form: Form) -> None:
    form = real_tags(form)
    tags = [option.tag for option in form.items[0].options]
    code = make_answer_code(form, {"1": (tags[0],), "2": (), "3": (), "4": ()})
    named = 0
    for place in range(3):
        for character in ALPHABET:
            wrong = tags[0][:place] + character + tags[0][place + 1 :]
            if wrong != tags[0]:
                message = refused(code.replace(tags[0], wrong), form)
                assert message.startswith(f"'{wrong}' is no answer on form 3BTN-8PS5; try: look at the sheet again")
                named += message.endswith(f"it may be {tags[0]} (question 1)")
    assert named > 80  # of 93; for the others, two tags are near


def test_swapped_characters_of_a_tag_are_found(form: Form) -> None:
    assert refused(CODE.replace("9G4", "94G"), form) == (
        "'94G' is no answer on form 3BTN-8PS5; try: look at the sheet again; it may be 9G4 (question 3)"
    )


def test_every_single_wrong_digit_of_a_number_is_found(form: Form) -> None:
    for place, right in enumerate("8.33"):
        for digit in "0123456789":
            if right not in (".", digit):
                value = "8.33"[:place] + digit + "8.33"[place + 1 :]
                assert "the digits of the number add up to" in refused(CODE.replace("8.33", value), form)
    assert refused(CODE.replace("8.33", "8.38"), form) == (
        "'2=8.38/14': the digits of the number add up to 19, not 14; "
        "try: look at the sheet again: a digit is wrong, or the sum is; ask the trainee if you cannot tell"
    )


def test_every_field_left_out_is_found(form: Form) -> None:
    fields = CODE.split()
    for place in range(1, len(fields) - 1):
        text = " ".join(fields[:place] + fields[place + 1 :])
        assert refused(text, form) == (
            "the answer code says it has 6 answers, but 5 were typed; "
            "try: compare it with the sheet field by field: one was left out, typed twice or split"
        )
    assert refused(" ".join(fields[:-1]), form) == (
        "the answer code is incomplete: its last field must be a slash and the number of answers typed, such as /9; "
        "try: type it again from the sheet: form number, answers, and at the end /6"
    )


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "3BTN-8PS5",
            "7RZC-8PS5",
            (
                "the answers are for form 7RZC-8PS5, but this is form 3BTN-8PS5; "
                ""
                "try: grade them with form 7RZC-8PS5 from the archive of issued forms; "
                "if that number is not yours, ask who issued it"
            ),
        ),
        (
            "9G4",
            "XYZ",
            (
                "'XYZ' is no answer on form 3BTN-8PS5; "
                "try: look at the sheet again: every answer has three characters, as printed beside it"
            ),
        ),
        (
            "9G4",
            "9G44",
            (
                "'9G44' is not part of an answer code; "
                ""
                "try: separate fields by spaces: three characters for a chosen answer, 2=8.5/13 for a number, 3=- "
                "for a question left blank"
            ),
        ),
        (
            "2=8.33/14",
            "2=8.33/",
            (
                "'2=8.33/' is not part of an answer code; "
                ""
                "try: separate fields by spaces: three characters for a chosen answer, 2=8.5/13 for a number, 3=- "
                "for a question left blank"
            ),
        ),
        (
            "2=8.33/14",
            "2=8.33",
            (
                "'2=8.33' lacks the sum of its digits; "
                "try: write a slash and the sum of all its digits after the number: 2=8.33/14"
            ),
        ),
        (
            "2=8.33/14",
            "9=8.33/14",
            (
                "there is an answer to question 9, but form 3BTN-8PS5 has questions 1 to 4; "
                "try: look up the form number on the paper or the file, and grade with that form"
            ),
        ),
        (
            "9G4",
            "3=1/1",
            (
                "question 3 takes no number; its answers are 9G4, B31; "
                "try: type the three characters printed beside the answer"
            ),
        ),
        ("9G4", "00G", "the answer 00G was typed twice; try: type every answer once"),
        (
            "9G4",
            "1ZK",
            (
                "question 1 has 2 answers: 00G, 1ZK; it takes one; "
                "try: ask the trainee which one counts, and type that one alone"
            ),
        ),
        (
            "9G4",
            "2=7/7",
            "question 2 is answered twice: 2=7/7; try: ask the trainee which one counts, and type that one alone",
        ),
        (
            "D5E",
            "4=-",
            "question 4 is answered twice: 4=-; try: ask the trainee which one counts, and type that one alone",
        ),
        (
            "00G",
            "3=-",
            "question 3 is answered twice: 9G4; try: ask the trainee which one counts, and type that one alone",
        ),
        (
            "8.33/14",
            "1,600/7",
            (
                "question 2: '1,600' can be read as 1600 or as 1.600; "
                "try: ask the trainee which is meant, and write 1600 or 1.600 without the comma"
            ),
        ),
    ],
)
def test_damage_is_told_in_whole_sentences(old: str, new: str, message: str, form: Form) -> None:
    assert refused(CODE.replace(old, new), form) == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "3BTN-8PS5 2=8.33/14 9G4 C0C D5E F7J /5",
            "question 1 has no answer; try: ask the trainee; if it was left blank on purpose, type 1=-",
        ),
        (
            "3BTN-8PS5 00G 2=8.33/14 9G4 C0C F7J /5",
            (
                "question 4 lacks the steps D5E; all steps must be put in order; "
                "try: ask the trainee for the whole order; "
                "if the question was left blank on purpose, type 4=-"
            ),
        ),
    ],
)
def test_incomplete_answers_are_told(text: str, message: str, form: Form) -> None:
    assert refused(text, form) == message


def test_several_answers_to_one_question_are_typed_in_any_order_and_kept_in_the_forms(
    form: Form, right: Answers
) -> None:
    whole = several(form)
    answers: Answers = {**right, "5": ("G4R", "J1T")}
    code = make_answer_code(whole, answers)
    assert code == "3BTN-8PS5 00G 2=8.33/14 9G4 C0C D5E F7J G4R J1T /8"
    for typed in (code, "3BTN-8PS5 J1T 00G 2=8.33/14 9G4 G4R C0C D5E F7J /8"):
        assert parse_answer_code(typed, whole) == make_response(form.id, answers)
    blank: Answers = {**right, "5": ()}
    assert parse_answer_code(make_answer_code(whole, blank), whole) == make_response(form.id, blank)
    assert refused(code.replace("J1T /8", "G4R /8"), whole) == (
        "the answer G4R was typed twice; try: type every answer once"
    )
    assert refused("3BTN-8PS5 00G 2=8.33/14 9G4 C0C D5E F7J /6", whole) == (
        "question 5 has no answer; try: ask the trainee; if it was left blank on purpose, type 5=-"
    )
