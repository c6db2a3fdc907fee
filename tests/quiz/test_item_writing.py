import pytest

from courseware.quiz.item_writing import faults_of_key, faults_of_options, faults_of_stem, numbers_of


@pytest.mark.parametrize(
    ("stem", "faults"),
    [
        (("The heater does not start.", "What do you check first?"), ()),
        (("Put the steps in order.",), ()),
        (("You check the",), ("the stem ends with 'You check the', which neither asks nor instructs",)),
        ((), ("the stem ends with '', which neither asks nor instructs",)),
        (
            ("Which step is not safe?",),
            ("the question turns on the word 'not', which is easily overread",),
        ),
        (("Which step is NOT safe?",), ()),
        (("The spark is not there.", "Why?"), ()),
    ],
)
def test_a_stem_asks_one_thing_plainly(stem: tuple[str, ...], faults: tuple[str, ...]) -> None:
    assert faults_of_stem(stem) == faults


@pytest.mark.parametrize(
    ("options", "faults"),
    [
        (("Set the gap", "Clean the lens", "Fill the tank"), ()),
        (("Yes", "No"), ("there are 2 options; 3 to 5 can be told apart and guessed rarely enough",)),
        (tuple("abcdef"), ("there are 6 options; 3 to 5 can be told apart and guessed rarely enough",)),
        (("Set the gap", "Fill the tank", "set the  gap."), ("the option 'set the  gap.' stands there twice",)),
        (("A fuse", "A fault", "All of the above"), ("the option 'All of the above' speaks of other options",)),
        (("A fuse", "A fault", "None of these"), ("the option 'None of these' speaks of other options",)),
        (("A fuse", "A fault", "Both A and B"), ("the option 'Both A and B' speaks of other options",)),
        (("9.5 kV", "10 kV", "1,000 kV"), ()),
        (
            ("10 kV", "9.5 kV", "11 kV"),
            ("the options are numbers and not in order: 10 kV, 9.5 kV, 11 kV",),
        ),
        (("10 kV", "9.5 kV", "none"), ()),
    ],
)
def test_options_are_fair(options: tuple[str, ...], faults: tuple[str, ...]) -> None:
    assert faults_of_options(options) == faults


def test_the_key_does_not_stand_out_by_its_length() -> None:
    assert faults_of_key("Set the gap to 1/8 in", ("Clean the lens", "Fill the tank")) == ()
    assert faults_of_key("Set the gap to 1/8 in and close the cover", ("Clean the lens", "Fill the tank")) == (
        (
            "the right option is much longer than the others, which gives it away: "
            "'Set the gap to 1/8 in and close the cover'"
        ),
    )


def test_numbers_are_read_where_every_option_is_one() -> None:
    assert numbers_of(["\u22120.02 inWC", "0", "1,600 ohm"]) == [-0.02, 0.0, 1600.0]
    assert numbers_of(["5 kV", "no spark"]) == []
