"""How a check divides the repairs that are left, held to what the parts do by their nature."""

import pytest

from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from courseware.diagnosis.splits import repairs_left, split, split_in_words


@pytest.fixture(scope="module")
def siphon(bank: dict[str, Signatures]) -> Signatures:
    return bank["bay-siphon"]


def test_what_does_not_turn_is_split_from_all_the_rest(siphon: Signatures) -> None:
    belief = posterior(siphon, "no-flame-red-light", {}, Premise.ONE)
    parts = split(siphon, belief, "blower-turns")
    assert list(parts) == ["turns", "still"]
    assert "replace-burner-motor" in parts["still"]
    assert sorted(one for some in parts.values() for one in some) == sorted(repairs_left(belief))


def test_what_every_repair_left_would_read_alike_is_said(siphon: Signatures) -> None:
    belief = posterior(siphon, "lights-then-quits", {"sensor-dark": "dark"}, Premise.ONE)
    assert split_in_words(siphon, belief, "blower-turns").startswith("it would most likely read the same for all ")


def test_one_against_one(siphon: Signatures) -> None:
    belief = posterior(siphon, "nothing-happens", {"line-voltage": "right"}, Premise.ONE)
    parts = split(siphon, belief, "call-for-heat")
    assert "repair-thermostat" in parts["none"]
    assert "replace-control" in parts["present"]
    words = split_in_words(siphon, belief, "call-for-heat")
    if [len(some) for some in parts.values()] == [1, 1]:
        assert words == (
            "“call present at the control” would point to “Replace the primary control”; "
            "for the other one it would read otherwise"
        )
    else:
        assert "would point to" in words
