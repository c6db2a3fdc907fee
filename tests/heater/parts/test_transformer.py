import pytest

from courseware.heater.parts.transformer import KIND
from tests.heater.bench import settle


@pytest.mark.parametrize(
    ("volts", "output", "secondary"),
    [
        (120.0, 1.0, 10_000.0),
        (100.0, 1.0, 8_333.3),  # trade magazine's night-time lockout
        (108.0, 1.0, 9_000.0),
        (120.0, 0.7, 7_000.0),
        (120.0, 0.0, 0.0),
        (0.0, 1.0, 0.0),
    ],
)
def test_secondary(volts: float, output: float, secondary: float) -> None:
    found = settle(KIND, {"volts": volts}, output=output)
    assert found["secondary"] == pytest.approx(secondary, abs=0.1)
    assert found["primary"] == volts
