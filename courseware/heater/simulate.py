"""Run a unit through one call for heat, for many cases at once."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from courseware.heater.faults import Change, FaultMode
from courseware.heater.kept import kept, source_digest
from courseware.heater.parts.base import Array, PartKind
from courseware.heater.unit import Part, Unit
from courseware.heater.wiring import stepping_order

Case = tuple[tuple[FaultMode, float], ...]  # faults present, each with its severity
MOMENTS: Final = ("standby", "start", "prepurge", "trial", "run", "end")
STEP: Final = 0.5  # s
DURATION: Final = 120.0  # s
SETTLED: Final = 10.0  # s in run before a reading of the run is taken
MOST_KEPT: Final = 64  # cases; larger batches are for tables, which are kept themselves
_STARTING: Final = ("proving", "prepurge", "trial")
_ROOM: Final = Path(__file__).parent

_Settings = dict[str, dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Run:
    """What happened, for n cases over T instants.

    Attributes
    ----------
    unit : Unit
        The unit that was run.
    times : array (T,)
        Instants [s] from the start of the record; the thermostat calls soon after.
    signals : Mapping[str, array (T, n)]
        ``part.output`` to its values, SI.
    moments : Mapping[str, array (n,)]
        Moment to the index of its instant in each case; -1: it never came. ``standby`` is the first instant,
        before the call; ``start`` is the last instant of the first try, whether it waits for air, purges or is in its
        trial; ``prepurge`` and ``trial`` are the last instant of the first prepurge and trial; ``run`` is the first
        instant after ``SETTLED`` seconds of run; ``end`` is the last instant.
    states : tuple of str
        Names of the codes of the control's state, see :func:`timeline`.
    """

    unit: Unit
    times: Array
    signals: Mapping[str, Array]
    moments: Mapping[str, NDArray[np.int64]]
    states: tuple[str, ...]


def simulate(
    unit: Unit, cases: Sequence[Case], changes: Sequence[Change] = (), *, dt: float = STEP, duration: float = DURATION
) -> Run:
    """Run every case of a unit with the same arrangement.

    Parameters
    ----------
    unit : Unit
        The unit.
    cases : sequence of Case
        n cases; ``()`` is a healthy unit.
    changes : sequence of Change
        The arrangement: each setting is put to its ``at_worst``, whatever the faults made of it; later ones win.
    dt, duration : float
        Step and length of the record [s].

    Returns
    -------
    Run
        T = duration / dt + 1 instants of n cases.
    """
    return simulate_each(unit, cases, [changes] * len(cases), dt=dt, duration=duration)


def simulate_each(
    unit: Unit,
    cases: Sequence[Case],
    arrangements: Sequence[Sequence[Change]],
    *,
    dt: float = STEP,
    duration: float = DURATION,
) -> Run:
    """Run every case with an arrangement of its own; otherwise as :func:`simulate`.

    Parameters
    ----------
    unit : Unit
        The unit.
    cases : sequence of Case
        n cases.
    arrangements : sequence of sequence of Change
        One for each case.
    dt, duration : float
        Step and length of the record [s].
    """
    steps, settings = round(duration / dt) + 1, case_settings(unit, cases, arrangements)
    names = tuple(f"{part.id}.{port.name}" for part in unit.parts for port in part.behaviour.outputs)

    def record() -> Array:
        signals = np.empty((len(names), steps, len(cases)))
        for index, values in zip(range(steps), _steps(unit, settings, dt), strict=False):
            for place, name in enumerate(names):
                signals[place, index] = values[name]
        return signals

    if len(cases) <= MOST_KEPT:
        data = kept(_made_from(unit, settings, (steps, len(cases), dt)), lambda: record().tobytes())
        found = np.frombuffer(data).reshape(len(names), steps, len(cases))
    else:
        found = record()
    return _run(unit, dict(zip(names, found, strict=True)), dt)


def _run(unit: Unit, signals: Mapping[str, Array], dt: float) -> Run:
    control = _control(unit)
    codes, states = signals[f"{control.id}.state"], control.behaviour.states
    times = np.arange(len(codes), dtype=np.float64) * dt
    return Run(unit=unit, times=times, signals=signals, moments=_moments(codes, states, dt), states=states)


def _made_from(unit: Unit, settings: _Settings, extent: tuple[float, ...]) -> Iterator[bytes]:
    """Yield everything that the signals of a run depend on."""
    yield source_digest(_ROOM, _ROOM.parent / "physics")
    yield repr(extent).encode()
    for part in unit.parts:
        yield repr((part.id, part.kind, sorted(part.wires.items()))).encode()
        for name, value in sorted(settings[part.id].items()):
            yield name.encode() + np.asarray(value).tobytes()


def timeline(run: Run, case: int = 0) -> tuple[tuple[float, str], ...]:
    """Return (time [s], state of the control) of one case: where it starts, and every change."""
    codes = run.signals[f"{_control(run.unit).id}.state"][:, case].astype(int)
    changed = np.flatnonzero(np.diff(codes, prepend=-1))
    return tuple((float(run.times[index]), run.states[codes[index]]) for index in changed)


def at_moment(run: Run, moment: str, signals: Collection[str]) -> Run:
    """Return a run as it stands at a moment: one instant, with some of its signals; -1 where the moment never came."""
    index = run.moments[moment]
    columns = np.arange(index.size)
    return Run(
        unit=run.unit,
        times=run.times[:1],
        signals={name: run.signals[name][index, columns][np.newaxis] for name in signals},
        moments={moment: np.where(index < 0, -1, 0)},
        states=run.states,
    )


def side_by_side(runs: Sequence[Run]) -> Run:
    """Return the cases of several runs of a unit, with the same signals and moments, as one run."""
    first = runs[0]
    return Run(
        unit=first.unit,
        times=first.times,
        signals={name: np.hstack([run.signals[name] for run in runs]) for name in first.signals},
        moments={name: np.concatenate([run.moments[name] for run in runs]) for name in first.moments},
        states=first.states,
    )


def case_settings(unit: Unit, cases: Sequence[Case], arrangements: Sequence[Sequence[Change]]) -> _Settings:
    """Return every setting of every part: a float, or an array (n,) where cases differ.

    Where two faults of a case move the same setting, the one that moves it further from the unit's own
    value counts, so that no order of faults matters.
    """
    settings: _Settings = {part.id: _numpy(part.settings) for part in unit.parts}

    def put(part: str, setting: str, case: int, value: float) -> None:
        if not isinstance(settings[part][setting], np.ndarray):
            settings[part][setting] = np.full(len(cases), settings[part][setting])
        settings[part][setting][case] = value

    for index, case in enumerate(cases):
        for (part, setting), value in faulty_values(unit, case).items():
            put(part, setting, index, value)
        for change in arrangements[index]:
            if change.applies_to(unit):
                put(change.part, change.setting, index, change.at_worst)
    return settings


def faulty_values(unit: Unit, case: Case) -> dict[tuple[str, str], float]:
    """Return what the faults of one case make of the settings they move, SI."""
    found: dict[tuple[str, str], float] = {}
    for fault, severity in case:
        for change in fault.changes:
            if not change.applies_to(unit):
                continue
            rating = unit.setting(change.part, change.setting)
            assert rating is not None
            none = rating if change.at_none is None else change.at_none
            value = none + (change.at_worst - none) * severity
            key = (change.part, change.setting)
            if key not in found or abs(value - rating) > abs(found[key] - rating):
                found[key] = value
    return found


@dataclass(frozen=True, slots=True)
class _Stepper:
    """One part made ready for stepping: where each of its inputs comes from."""

    id: str
    kind: PartKind
    settings: dict[str, Any]
    present: tuple[tuple[str, str], ...]
    late: tuple[tuple[str, str], ...]
    unwired: dict[str, np.float64]
    outputs: tuple[tuple[str, str], ...]


def _stepper(part: Part, settings: dict[str, Any]) -> _Stepper:
    kind = part.behaviour
    wired = [(port, part.wires[port.name]) for port in kind.inputs if port.name in part.wires]
    return _Stepper(
        id=part.id,
        kind=kind,
        settings=settings,
        present=tuple((port.name, ref) for port, ref in wired if not port.late),
        late=tuple((port.name, ref) for port, ref in wired if port.late),
        unwired={port.name: np.float64(port.default or 0.0) for port in kind.inputs if port.name not in part.wires},
        outputs=tuple((port.name, f"{part.id}.{port.name}") for port in kind.outputs),
    )


def _steps(unit: Unit, settings: _Settings, dt: float) -> Iterator[dict[str, Any]]:
    """Yield the values of all outputs, one step after another, without end."""
    plan = [_stepper(part, settings[part.id]) for part in stepping_order(unit.parts)]
    # NumPy numbers throughout, so that a part's step means the same for one case and for many.
    memories = {one.id: _numpy(one.kind.start(one.settings)) for one in plan}
    # One step from all zeros tells what late inputs bring while the unit is at rest; it leaves no memory.
    before, _ = _advance(
        plan, dict.fromkeys((signal for one in plan for _, signal in one.outputs), np.float64()), memories, dt
    )
    while True:
        before, memories = _advance(plan, before, memories, dt)
        yield before


def _numpy(values: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value if isinstance(value, np.ndarray) else np.float64(value) for name, value in values.items()}


def _advance(
    plan: Sequence[_Stepper], before: Mapping[str, Any], memories: Mapping[str, dict[str, Any]], dt: float
) -> tuple[dict[str, Any], dict[str, dict[str, Any]]]:
    now: dict[str, Any] = {}
    kept: dict[str, dict[str, Any]] = {}
    for one in plan:
        inputs = one.unwired.copy()
        for name, ref in one.present:
            inputs[name] = now[ref]
        for name, ref in one.late:
            inputs[name] = before[ref]
        outputs, kept[one.id] = one.kind.step(one.settings, inputs, memories[one.id], dt)
        for name, signal in one.outputs:
            now[signal] = outputs[name]
    return now, kept


def _control(unit: Unit) -> Part:
    return next(part for part in unit.parts if part.behaviour.states)


def _moments(codes: Array, states: tuple[str, ...], dt: float) -> dict[str, NDArray[np.int64]]:
    """Return the index of each moment in each case; -1 where it never came."""
    steps, count = codes.shape
    moments = {
        "standby": np.zeros(count, dtype=np.int64),
        "end": np.full(count, steps - 1, dtype=np.int64),
        "run": _first(_lasted(codes == states.index("run"), round(SETTLED / dt))),
    }
    for name, within in (("start", _STARTING), ("prepurge", ("prepurge",)), ("trial", ("trial",))):
        inside = np.isin(codes, [states.index(one) for one in within])
        leaves = inside & np.vstack([~inside[1:], np.ones((1, count), dtype=bool)])
        moments[name] = _first(leaves)
    return moments


def _lasted(inside: NDArray[np.bool_], steps: int) -> NDArray[np.bool_]:
    """Return where something has been true for more than so many steps on end."""
    lasting = np.zeros(inside.shape[1])
    found = np.empty_like(inside)
    for index, row in enumerate(inside):
        lasting = np.where(row, lasting + 1, 0)
        found[index] = lasting > steps
    return found


def _first(found: NDArray[np.bool_]) -> NDArray[np.int64]:
    return np.where(found.any(axis=0), found.argmax(axis=0), -1).astype(np.int64)
