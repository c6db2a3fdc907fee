"""Written keys that the model or arithmetic can give are found again: by running the units, and by hand."""

import numpy as np
import pytest

from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.simulate import Run, simulate
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.choice import WrittenChoice
from courseware.quiz.kinds.multiple_choice import WrittenSeveral

SHUT_AIR = (Change("air_supply", "pressure", None, 0.0),)
HOSE_OFF = (Change("air_line", "connected", None, 0.0),)
BRIDGED = (*HOSE_OFF, Change("air_switch", "bridged", None, 1.0))
NO_REGULATOR = (Change("air_regulator", "setpoint", None, 0.0),)
VALVE_SHUT = (Change("oil_valve", "open", None, 0.0),)


def start(trade: Trade, unit: str, changes: tuple[Change, ...] = ()) -> Run:
    return simulate(trade.units[unit], [()], changes)


def ever(run: Run, signal: str) -> bool:
    return bool(np.any(run.signals[signal] > 0))


def first(run: Run, signal: str) -> float:
    """Return the first instant [s] at which a signal is there."""
    return float(run.times[np.argmax(run.signals[signal][:, 0] > 0)])


def written(stock: Stock, name: str) -> WrittenChoice | WrittenSeveral:
    body = stock.bank.templates[name].body
    assert isinstance(body, WrittenChoice | WrittenSeveral)
    return body


def test_what_comes_before_a_metered_flame(stock: Stock) -> None:
    run = start(stock.materials.trade, "bay-metered")
    flame = first(run, "burner.flame")
    came = [first(run, signal) for signal in ("blower.speed", "air_switch.closed", "control.valve")]
    spark = run.signals["electrode.spark"][:, 0] > 0
    gone = run.times[np.flatnonzero(spark)[-1]]
    assert max(came) <= flame
    assert gone >= flame  # the spark ends once flame is seen
    assert not ever(run, "control.light")
    body = written(stock, "before-a-metered-flame")
    assert isinstance(body, WrittenSeveral)
    assert [option.text for option in body.wrong] == ["The spark went off.", "The red light came on."]


def test_what_is_on_beside_a_siphon_flame(stock: Stock) -> None:
    run = start(stock.materials.trade, "bay-siphon")
    last = {signal: float(values[-1, 0]) for signal, values in run.signals.items()}
    assert last["burner.flame"] > 0.5
    on = {name for name, signal in (
        ("The spark", "electrode.spark"), ("The blower", "blower.speed"), ("The atomizing air", "nozzle.air"),
        ("The red light", "control.light"),
    ) if last[signal] > 0}  # fmt: skip
    body = written(stock, "on-beside-a-siphon-flame")
    assert isinstance(body, WrittenSeveral)
    assert {option.text for option in body.right} == on
    assert not any(part.id == "pump" for part in stock.materials.trade.units["bay-siphon"].parts)


@pytest.mark.parametrize(
    ("name", "unit_and_changes", "key", "happens"),
    [
        ("shop-air-shut", ("bay-siphon", SHUT_AIR), "Blower and spark come, no oil is drawn",
         {"blower.speed": True, "electrode.spark": True, "nozzle.oil": False, "control.light": True}),
        ("compressor-hose-off", ("bay-metered", HOSE_OFF), "The blower runs, and no trial begins.",
         {"blower.speed": True, "control.valve": False, "control.light": False}),
        ("bridged-air-switch", ("bay-metered", BRIDGED), "Oil dribbles in under a live spark.",
         {"nozzle.oil": True, "electrode.spark": True, "nozzle.air": False}),
        ("something-was-forgotten", ("bay-metered", NO_REGULATOR), "The air regulator was left at zero.",
         {"blower.speed": True, "control.valve": False, "control.light": False}),
    ],
)  # fmt: skip
def test_what_happens_is_what_the_unit_does(
    name: str, unit_and_changes: tuple[str, tuple[Change, ...]], key: str, happens: dict[str, bool], stock: Stock
) -> None:
    body = written(stock, name)
    assert isinstance(body, WrittenChoice)
    assert body.options[0].text.startswith(key)
    run = start(stock.materials.trade, *unit_and_changes)
    assert {signal: ever(run, signal) for signal in happens} == happens


def test_a_valve_left_shut_ends_in_the_red_light(stock: Stock) -> None:
    """The wrong answer beside it: with the valve shut there is a spark, no oil, and a lockout."""
    run = start(stock.materials.trade, "bay-metered", VALVE_SHUT)
    assert (ever(run, "electrode.spark"), ever(run, "nozzle.oil"), ever(run, "control.light")) == (True, False, True)


def test_the_low_line_by_plain_arithmetic(stock: Stock) -> None:
    body = written(stock, "low-line-and-its-output")
    assert isinstance(body, WrittenChoice)
    assert "102 V" in body.stem[0]
    assert "8.5 kV" in body.stem[0]
    output = 10 * 102 / 120
    assert output == pytest.approx(8.5)
    assert body.options[0].text == "Get the low line corrected"
