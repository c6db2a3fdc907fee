"""The sequence, one input at a time."""

from collections.abc import Mapping

import pytest

from courseware.heater.parts.primary_control import KIND, STATES
from tests.heater.bench import follow

DARK, FLAME = 1e6, 600.0
CALL = {"volts": 120.0, "call": 1.0, "sensor": DARK, "air": 1.0}


def states(inputs: list[Mapping[str, float]], **given: float) -> list[str]:
    codes = follow(KIND, inputs, "state", **{"trial": 2.0, "interrupted": 0.0, **given})
    return [STATES[int(code)] for code in codes]


def run(*pieces: tuple[int, Mapping[str, float]]) -> list[Mapping[str, float]]:
    return [{**CALL, **change} for steps, change in pieces for _ in range(steps)]


def test_no_flame_is_lockout_at_the_end_of_the_trial_and_stays() -> None:
    found = states(run((8, {}), (2, {"call": 0.0}), (2, {"volts": 0.0}), (2, {})))
    assert found == ["proving", *["trial"] * 4, *["lockout"] * 9]


def test_flame_ends_the_trial() -> None:
    assert states(run((3, {}), (2, {"sensor": FLAME}))) == ["proving", "trial", "trial", "run", "run"]


def test_prepurge_comes_before_the_trial() -> None:
    assert states(run((5, {})), prepurge=1.0) == ["proving", "prepurge", "prepurge", "trial", "trial"]


def test_waits_for_air_and_goes_back_to_waiting_when_it_is_lost() -> None:
    found = states(run((3, {"air": 0.0}), (2, {}), (2, {"air": 0.0})))
    assert found == ["proving", "proving", "proving", "trial", "trial", "proving", "proving"]


def test_light_before_the_trial_is_a_refused_start() -> None:
    found = states(run((3, {"sensor": FLAME}), (3, {})))
    assert found == ["refused", "refused", "refused", "proving", "trial", "trial"]
    assert states(run((3, {}), (2, {"sensor": FLAME})), prepurge=5.0)[-2:] == ["refused", "refused"]


def test_flame_lost_in_run_is_one_recycle_then_lockout() -> None:
    lit = (4, {"sensor": FLAME})
    found = states(run((3, {}), lit, (3, {}), (3, {}), lit, (4, {})), flame_response=1.0, recycle_wait=0.5)
    once = [state for state, after in zip(found, [*found[1:], ""], strict=True) if state != after]
    assert once == ["proving", "trial", "run", "recycle", "proving", "trial", "run", "lockout"]


def test_low_voltage_drops_it_out_without_lockout() -> None:
    assert states(run((3, {}), (2, {"volts": 70.0}), (2, {}))) == [
        "proving", "trial", "trial", "standby", "standby", "proving", "trial",
    ]  # fmt: skip


def test_dead_control_does_nothing() -> None:
    assert states(run((4, {})), works=0.0) == ["standby"] * 4


@pytest.mark.parametrize(("interrupted", "in_run"), [(1.0, 0.0), (0.0, 120.0)])
def test_spark_in_run_is_what_tells_interrupted_from_intermittent(interrupted: float, in_run: float) -> None:
    inputs = run((3, {}), (3, {"sensor": FLAME}))
    volts = follow(KIND, inputs, "ignition", trial=5.0, interrupted=interrupted)
    assert volts == [0.0, 120.0, 120.0, in_run, in_run, in_run]
    words = KIND.features({"interrupted": interrupted})
    assert words == {"ignition": "interrupted" if interrupted else "intermittent"}


def test_outputs_follow_the_state() -> None:
    inputs = run((1, {"call": 0.0}), (3, {}), (2, {"sensor": FLAME}))
    given = {"trial": 5.0, "interrupted": 0.0, "prepurge": 0.5}
    assert follow(KIND, inputs, "motor", **given) == [0, 120, 120, 120, 120, 120]
    assert follow(KIND, inputs, "valve", **given) == [0, 0, 0, 120, 120, 120]
    assert follow(KIND, run((9, {})), "light", trial=2.0, interrupted=0.0) == [0, 0, 0, 0, 0, 1, 1, 1, 1]
