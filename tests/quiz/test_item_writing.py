"""Each rule of writing has a case that breaks it alone, told in full, and a case that keeps it."""

import pytest

from courseware.quiz.item_writing import (
    faults_of_drawn,
    faults_of_key,
    faults_of_options,
    faults_of_reading,
    faults_of_several,
    faults_of_stem,
    numbers_of,
)


@pytest.mark.parametrize(
    ("stem", "faults"),
    [
        (("The heater does not start.", "What do you check first?"), ()),
        (("Put the steps in order.",), ()),
        (("You check the",), ("rule 15: the stem ends with 'You check the', which neither asks nor instructs",)),
        ((), ("rule 15: the stem ends with '', which neither asks nor instructs",)),
        (
            ("Which step is not safe?",),
            ("rule 17: the question turns on the word 'not', which is easily overread",),
        ),
        (("Which step isn't safe?",), ("rule 17: the question turns on the word 'isn't', which is easily overread",)),
        (("Which step is NOT safe?",), ()),
        (("The spark is not there.", "Why?"), ()),
        (("word " * 120 + "and why?",), ("rule 16: the stem has 122 words; 120 are enough",)),
        (("Look at the the spark.",), ("rule 12: a word stands there twice: 'the the'",)),
        (
            ("You see a electrode and a one-inch gap.", "What next?"),
            ("rule 12: the article does not go with its word: 'a electrode'",),
        ),
        (("An heater stands there.", "What next?"), ()),  # h may be silent: not judged
    ],
)
def test_a_stem_asks_one_thing_plainly(stem: tuple[str, ...], faults: tuple[str, ...]) -> None:
    assert tuple(fault for fault in faults_of_stem(stem) if "'word word'" not in fault) == faults


@pytest.mark.parametrize(
    ("options", "faults"),
    [
        (("Set the gap", "Clean the lens", "Fill the tank"), ()),
        (("Yes", "No"), ("rule 18: there are 2 options; 3 to 5 can be told apart and guessed rarely enough",)),
        (tuple("abcdef"), ("rule 18: there are 6 options; 3 to 5 can be told apart and guessed rarely enough",)),
        (
            ("Set the gap.", "Fill the tank.", "set the  gap."),
            ("rule 22: the option 'set the  gap.' stands there twice",),
        ),
        (
            ("A fuse", "A fault", "All of the above"),
            ("rules 9, 25 and 26: the option 'All of the above' speaks of other options",),
        ),
        (
            ("A fuse", "A fault", "None of these"),
            ("rules 9, 25 and 26: the option 'None of these' speaks of other options",),
        ),
        (
            ("A fuse", "A fault", "Both A and B"),
            ("rules 9, 25 and 26: the option 'Both A and B' speaks of other options",),
        ),
        (("9.5 kV", "10 kV", "1,000 kV"), ()),
        (
            ("10 kV", "9.5 kV", "11 kV"),
            ("rule 21: the options are numbers and not in order: 10 kV, 9.5 kV, 11 kV",),
        ),
        (("10 kV", "9.5 kV", "none"), ()),
        (
            ("The oil valve", "The oil valve and the pump", "The air line"),
            (
                (
                    "rule 22: the option 'The oil valve' stands inside 'The oil valve and the pump': "
                    "whoever takes one takes the other"
                ),
            ),
        ),
        (
            ("8 to 10 psig", "10 to 12 psig", "11 to 15 psig"),
            ("rule 22: the ranges '10 to 12 psig' and '11 to 15 psig' overlap",),
        ),
        (("9 V", "10 kV", "11 kV"), ("rule 23: the options are numbers in different units: 9 V, 10 kV, 11 kV",)),
        (
            ("Set the gap.", "Clean the lens.", "Fill the tank"),
            ("rule 23: some options end with a full stop and 'Fill the tank' does not",),
        ),
        (
            ("Because it leaks", "It is shut", "It is cold"),
            ("rule 23: 'Because it leaks' opens in a way that other options do not",),
        ),
        (
            ("Setting the gap", "The lens", "The tank"),
            ("rule 23: 'Setting the gap' opens in a way that other options do not",),
        ),
        (("Yes, at once", "Yes, later", "No, it waits"), ()),
        (
            ("Set the gap", "Fill the tank, look at the strainer, and read the gauge at the burner in a start", "Wait"),
            (
                (
                    "rule 24: 'Fill the tank, look at the strainer, and read the gauge at the burner in a start' "
                    "is much longer than 'Wait'"
                ),
            ),
        ),
    ],
)
def test_options_are_fair(options: tuple[str, ...], faults: tuple[str, ...]) -> None:
    assert faults_of_options(options) == faults


def test_the_key_does_not_stand_out() -> None:
    assert faults_of_key("Set the gap to 1/8 in", ("Clean the lens", "Fill the tank")) == ()
    assert faults_of_key("Set the gap to 1/8 in and close the cover", ("Clean the lens", "Fill the tank")) == (
        (
            "rule 24: the right option is much longer than the others, which gives it away: "
            "'Set the gap to 1/8 in and close the cover'"
        ),
    )
    assert faults_of_key("Wait", ("Clean the lens", "Fill the tank")) == (
        "rule 24: the right option is much shorter than the others, which gives it away: 'Wait'",
    )


def test_several_options_apply_and_the_question_says_so() -> None:
    stem = ("Choose every one that applies.",)
    assert faults_of_several(stem, ("Air", "Heat"), ("Spark", "Light")) == ()
    assert faults_of_several(("Which apply?",), ("Air",), ("Spark", "Light")) == (
        "rule 18: there are 3 options; 4 to 6 can be told apart and guessed rarely enough",
        "rule 19: 1 right and 2 wrong options; at least 2 are right and 1 is wrong where several count",
        "rule 14: the question 'Which apply?' does not say that every one that applies is to be chosen",
    )
    assert faults_of_several(stem, ("Air in the line", "Heat in the head"), ("Spark", "Light")) == (
        "rule 24: the right option is much longer than the others, which gives it away: 'Air in the line'",
    )


def test_titles_out_of_the_model_are_held_to_their_number_and_to_each_other() -> None:
    assert faults_of_drawn(("Wait", "A much longer title than that one, with a full stop.", "No"), several=False) == ()
    assert faults_of_drawn(("Wait", "Wait for oil", "No"), several=True) == (
        "rule 18: there are 3 options; 4 to 6 can be told apart and guessed rarely enough",
        "rule 22: the option 'Wait' stands inside 'Wait for oil': whoever takes one takes the other",
    )


def test_a_question_reads_with_ease() -> None:
    """ "The Australian platypus ..." reads at grade 11.3 (published example of the formula)."""
    hard = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
    assert faults_of_reading([hard]) == (
        "rule 8: stem and options read at school grade 11.3; at most 9 reads with ease",
    )
    assert faults_of_reading(["The cat sat on the mat."]) == ()


def test_numbers_are_read_where_every_option_is_one() -> None:
    assert numbers_of(["\u22120.02 inWC", "0", "1,600 ohm"]) == [-0.02, 0.0, 1600.0]
    assert numbers_of(["5 kV", "no spark"]) == []
