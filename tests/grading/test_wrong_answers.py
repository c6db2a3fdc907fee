import dataclasses

import pytest

from courseware.grading.wrong_answers import Wrong, wrong_in
from courseware.quiz.form import Belief
from tests.grading.classroom import IDLE, choice
from tests.grading.making import COVER, number_of, order_of

RATED = Belief("rated-is-real", "The output is what the plate says.", "It follows the line.", "ignition#output")


@pytest.mark.parametrize("given", [(), ("9G4",)])
def test_a_right_or_a_blank_answer_has_nothing_wrong(given: tuple[str, ...]) -> None:
    assert wrong_in(*choice(1, "why"), given) == ()


def test_a_wrong_option_is_named_by_its_text_whatever_its_tag() -> None:
    assert wrong_in(*choice(1, "why"), ("1ZK",)) == (Wrong("why idle", "It is live.", "", IDLE),)
    assert wrong_in(*choice(1, "why"), ("B31",)) == (
        Wrong("why unsafe", "It burns.", "No spark while oil can flow.", None),
    )


def test_a_number_is_named_by_the_slip_that_leads_to_it() -> None:
    item, entry = number_of(1)
    says = "That is the output at full line voltage."
    assert wrong_in(item, entry, ("10",)) == (Wrong(says, "", "", None),)
    assert wrong_in(item, entry, ("10.05 kV",)) == (Wrong(says, "", "", None),)  # within the tolerance of the slip
    assert wrong_in(item, entry, ("3",)) == (Wrong("Another number", "", "", None),)
    known = dataclasses.replace(entry, misconceptions={"10": RATED})
    assert wrong_in(item, known, ("10",)) == (Wrong(says, "", "", RATED),)


def test_an_order_is_named_by_the_steps_turned_round_the_unsafe_ones_first() -> None:
    parts = order_of(1, "CDF", (("C", "D"), ("C", "F"), ("D", "F")), gates=(COVER,))
    assert wrong_in(*parts, ("D", "C", "F")) == (
        Wrong('You put "Do D" before "Do C".', "Line voltage can kill.", "No cover comes off a live unit.", None),
    )
    assert wrong_in(*parts, ("C", "F", "D")) == (Wrong('You put "Do F" before "Do D".', "", "", None),)


def test_of_several_right_options_each_wrong_one_and_each_left_out_counts() -> None:
    item, entry = choice(1, "why")
    several = dataclasses.replace(
        entry,
        right=("9G4", "B31"),
        kind="multiple-choice",
        feedback={"B31": "It belongs."},
        misconceptions={"B31": IDLE},
    )
    names = wrong_in(item, several, ("9G4", "1ZK"))
    assert names == (
        Wrong("why idle", "", "", None),
        Wrong("Left out: why unsafe", "It belongs.", "No spark while oil can flow.", IDLE),
    )
