import pytest

from courseware.heater.parts.tank import KIND
from tests.heater.bench import follow, settle


def test_runs_dry_when_its_content_is_drawn() -> None:
    """10 mL drawn at 1 mL/s lasts 10 s; the twentieth half-second empties it."""
    wet = follow(KIND, [{"drawn": 1e-6}] * 22, "wet", content=1.0e-5, area=1.0, line_flow=4e-6)
    assert wet == [1.0] * 19 + [0.0] * 3


def test_level_is_content_over_area() -> None:
    found = settle(KIND, {"drawn": 0.0}, content=0.15, area=0.5, line_flow=4e-6)
    assert found["level"] == pytest.approx(0.3)
    assert found["oil"] == 4e-6


def test_empty_gives_none() -> None:
    found = settle(KIND, {"drawn": 0.0}, content=0.0, area=0.5, line_flow=4e-6)
    assert (found["level"], found["oil"], found["wet"]) == (0.0, 0.0, 0.0)
