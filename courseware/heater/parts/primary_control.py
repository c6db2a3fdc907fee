"""The primary control: it runs the sequence and locks the burner out."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values

STATES: Final = ("standby", "refused", "proving", "prepurge", "trial", "run", "recycle", "lockout")
STANDBY, REFUSED, PROVING, PREPURGE, TRIAL, RUN, RECYCLE, LOCKOUT = range(len(STATES))


def _start(_settings: Values) -> dict[str, Any]:
    return {"state": float(STANDBY), "clock": 0.0, "dark": 0.0, "losses": 0.0}


def _next_state(settings: Values, now: Values) -> Any:
    """Return the state that follows, for a control that has power and a call."""
    state, seen, air = now["state"], now["seen"], now["air"]
    after_air = np.where(settings["prepurge"] > 0.0, PREPURGE, TRIAL)
    lost = np.where(now["losses"] < settings["recycles"], RECYCLE, LOCKOUT)
    burning = (state == TRIAL) | (state == RUN)
    starting = (state == STANDBY) | (state == PROVING) | (state == PREPURGE)
    rules = (
        (state == LOCKOUT, LOCKOUT),  # stays until someone presses reset
        (starting & seen, REFUSED),  # light before the trial: no start
        ((state == STANDBY) | ((state == REFUSED) & ~seen), PROVING),
        ((burning | (state == PREPURGE)) & ~air, PROVING),
        ((state == PROVING) & air, after_air),
        ((state == PREPURGE) & (now["clock"] >= settings["prepurge"]), TRIAL),
        ((state == TRIAL) & seen, RUN),
        ((state == TRIAL) & (now["clock"] >= settings["trial"]), LOCKOUT),
        ((state == RUN) & (now["dark"] >= settings["flame_response"]), lost),
        ((state == RECYCLE) & (now["clock"] >= settings["recycle_wait"]), PROVING),
    )
    following = state
    for rule, to in reversed(rules):  # the first that holds counts
        following = np.where(rule, to, following)
    return following


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    volts = inputs["volts"]
    powered = (volts >= settings["dropout"]) & (settings["works"] >= 1.0)
    seen = inputs["sensor"] <= settings["flame_below"]
    now = {
        **memory,
        "seen": seen,
        "air": inputs["air"] >= 1.0,
        "clock": memory["clock"] + dt,
        "dark": np.where(seen, 0.0, memory["dark"] + dt),
    }
    idle = ~powered | (inputs["call"] < 1.0)
    state = np.where(idle & (memory["state"] != LOCKOUT), STANDBY, _next_state(settings, now))
    changed = state != memory["state"]
    kept = {
        "state": state,
        "clock": np.where(changed, 0.0, now["clock"]),
        "dark": np.where(changed, 0.0, now["dark"]),
        "losses": memory["losses"] + (changed & (state == RECYCLE)),
    }
    return _outputs(settings, volts, powered, state), kept


def _outputs(settings: Values, volts: Any, powered: Any, state: Any) -> dict[str, Any]:
    line = np.where(powered, volts, 0.0)
    sparks = (state == TRIAL) | ((state == RUN) & (settings["interrupted"] < 1.0))
    return {
        "line": volts,
        "state": state,
        "motor": np.where((state >= PROVING) & (state <= RECYCLE), line, 0.0),
        "ignition": np.where(sparks, line, 0.0),
        "valve": np.where((state == TRIAL) | (state == RUN), line, 0.0),
        "light": np.where(powered & (state == LOCKOUT), 1.0, 0.0),
        "low_volts": np.where(powered, 24.0 * volts / 120.0, 0.0),
        "refused": np.where(state == REFUSED, 1.0, 0.0),
    }


def _features(settings: Any) -> dict[str, str]:
    return {"ignition": "interrupted" if settings["interrupted"] >= 1.0 else "intermittent"}


KIND: Final = PartKind(
    name="primary-control",
    meaning="primary safety control with flame sensing and manual reset",
    settings=(
        Setting("trial", "s", None, 1.0, 120.0, "trial for ignition"),
        Setting("prepurge", "s", 0.0, 0.0, 120.0, "prepurge with air proved; 0: none"),
        Setting("interrupted", "", None, 0.0, 1.0, "1: the spark stops when flame is seen; 0: it stays on"),
        Setting("flame_below", "ohm", 1600.0, 100.0, 1e5, "sensor resistance below which flame is seen"),
        Setting("flame_response", "s", 1.0, 0.0, 10.0, "time without flame in run until it acts"),
        Setting("recycles", "", 1.0, 0.0, 5.0, "tries after flame is lost in run"),
        Setting("recycle_wait", "s", 10.0, 0.0, 120.0, "wait before such a try"),
        Setting("dropout", "V", 80.0, 0.0, 120.0, "line voltage below which it drops out"),
        Setting("works", "", 1.0, 0.0, 1.0, "0 if it is dead"),
    ),
    inputs=(
        Port("volts", "V", "line voltage at its terminals"),
        Port("call", "", "1 while the thermostat calls"),
        Port("sensor", "ohm", "resistance at the sensor terminals", late=True),
        Port("air", "", "1 when air is proved", default=1.0, late=True),
    ),
    outputs=(
        Port("line", "V", "line voltage at its terminals"),
        Port("motor", "V", "voltage to the burner motor"),
        Port("ignition", "V", "voltage to the ignition"),
        Port("valve", "V", "voltage to the fuel valve"),
        Port("light", "", "1 when the lockout light is on"),
        Port("low_volts", "V", "voltage of its 24 V transformer at the thermostat terminals"),
        Port("refused", "", "1 while it refuses the start because it sees light"),
        Port("state", "", "code of its state"),
    ),
    start=_start,
    step=_step,
    features=_features,
    states=STATES,
)
