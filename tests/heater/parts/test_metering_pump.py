import pytest

from courseware.heater.parts.metering_pump import KIND
from tests.heater.bench import settle

INHG = 3386.39
RUNNING = {"volts": 120.0, "oil": 4e-6, "wet": 1.0}


def pump(**inputs: float) -> dict[str, float]:
    return settle(KIND, {**RUNNING, **inputs}, rate=1e-6)


def test_meters_its_rate_or_what_the_line_gives() -> None:
    assert pump()["flow"] == 1e-6
    assert pump(oil=4e-7)["flow"] == 4e-7
    assert pump(volts=0.0)["flow"] == 0.0


@pytest.mark.parametrize("off", ["works", "enabled"])
def test_stands_when_it_is_unplugged_or_worn_out(off: str) -> None:
    found = settle(KIND, RUNNING, rate=1e-6, **{off: 0.0})
    assert (found["flow"], found["vacuum"]) == (0.0, 0.0)


def test_vacuum_shows_a_plugged_line_long_before_the_flow_does() -> None:
    """Common practice, no source: above 10 to 15 inHg there is too much lift or a plugged strainer."""
    half, nearly = pump(oil=2e-6), pump(oil=1e-6)
    assert pump()["vacuum"] < half["vacuum"] < nearly["vacuum"]
    assert half["flow"] == nearly["flow"] == 1e-6
    assert pump()["vacuum"] < 5 * INHG
    assert nearly["vacuum"] > 10 * INHG
    assert pump(oil=0.0)["vacuum"] == 8.5e4


def test_a_pump_that_draws_air_shows_no_vacuum() -> None:
    assert pump(oil=0.0, wet=0.0)["vacuum"] == 0.0
