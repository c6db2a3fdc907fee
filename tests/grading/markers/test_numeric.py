import pytest

from courseware.grading.markers.numeric import mark
from tests.grading.making import number_of


@pytest.mark.parametrize(
    ("text", "share"),
    [("8.33", 1), ("8,33 kV", 1), ("8.42", 1), ("8.24", 1), ("8.43", 0), ("8.23", 0), ("-8.33", 0), ("8330", 0)],
)
def test_the_tolerance_is_held_to_the_last_digit(text: str, share: int) -> None:
    """8.33 + 0.09 = 8.42 is inside; in binary floating point 8.42 - 8.33 is above 0.09."""
    item, entry = number_of(1)
    assert mark(item, entry, (text,)).share == share


def test_a_known_slip_is_told() -> None:
    item, entry = number_of(1)
    assert mark(item, entry, ("10.0",)).against == ("That is the output at full line voltage.",)
    assert mark(item, entry, ("11.0",)).against == ()
    assert mark(item, entry, ("8.3",)).against == ()


def test_the_right_answer_is_shown_with_its_unit() -> None:
    item, entry = number_of(1)
    assert mark(item, entry, ()).right_answer == ("8.33 kV",)
    assert mark(item, entry, ("8.3 kV",)).chosen == ("8.3 kV",)
