from fractions import Fraction

from courseware.grading.markers.base import Verdict
from courseware.grading.markers.choice import mark
from courseware.grading.result import Broken
from tests.grading.making import OIL, one_of


def test_the_right_one_has_all_points_and_any_other_none() -> None:
    item, entry = one_of(1, 1)
    assert mark(item, entry, ("9G4",)) == Verdict(Fraction(1), ("Oil collects",), ("Oil collects",))
    assert mark(item, entry, ("1ZK",)) == Verdict(
        Fraction(0), ("It is quieter",), ("Oil collects",), ("Noise is no danger.",), shown=("1ZK",)
    )
    assert mark(item, entry, ()) == Verdict(Fraction(0), (), ("Oil collects",))


def test_only_the_unsafe_option_breaks_its_gate() -> None:
    item, entry = one_of(1, 1, (OIL,))
    broken = {option.tag: mark(item, entry, (option.tag,)).broken for option in item.options}
    assert broken == {
        "9G4": None,
        "1ZK": None,
        "B31": Broken("No spark while oil can flow.", "WARNING", "Oil lights all at once."),
    }
