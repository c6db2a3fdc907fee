"""What a unit does in one call for heat, as a chart over time, simulated with the unit as it is arranged.

Passing::

    kind: sequence-chart
    title: With the air line off
    until: 60
    lanes:
      - {signal: burner.oil_flow, above: 0.0, says: Oil}
    panels:
      - unit: bench-siphon
        says: Siphon unit
        states: {atomizing-air: off}
        faults: {transformer-weak: 0.5}

``until`` is the end of the chart [s]. A lane is dark while its signal is above ``above`` [SI unit of
the signal]. ``states`` sets variables of the job, ``faults`` puts faults on the unit; both may be left
out. Failing: a signal that a unit does not have; an unknown variable, value, unit or fault.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest
from courseware.content.words import say
from courseware.heater.job import arrangement
from courseware.heater.simulate import Run, simulate, timeline
from courseware.physics.units import write
from courseware.publish.figures.base import WIDTH, Figure, Table, joined, line, rectangle, text
from courseware.publish.numbers import read_case
from courseware.publish.teaching import Reader, Teaching

LEFT: Final = 88.0
RIGHT: Final = 12.0
LANE: Final = 25.0
HEAD: Final = 46.0
FOOT: Final = 44.0
MOST_TICKS: Final = 7
SMALL: Final = 13.5


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of the chart: a signal, the level above which it counts as on [SI], and its words."""

    signal: str
    above: float
    says: str


@dataclass(frozen=True, slots=True)
class Panel:
    """One run of one unit: its words, the states of its control, and when each lane is on [s]."""

    says: str
    states: tuple[tuple[float, str], ...]
    lanes: tuple[tuple[tuple[float, float], ...], ...]


def load(fields: Fields, reader: Reader) -> Figure:
    """Read the chart, simulate its runs and draw it; a fault leaves it empty."""
    before = len(reader.problems)
    title, until = fields.text("title"), fields.number("until", low=1.0, high=3600.0)
    lanes = []
    for entry in fields.children("lanes", say("publish.a-lane")):
        lanes.append(Lane(entry.text("signal"), entry.number("above", 0.5), entry.text("says")))
        entry.finish()
    panels = [_panel(entry, reader, lanes, until) for entry in fields.children("panels", say("publish.a-panel"))]
    sound = [panel for panel in panels if panel is not None]
    if len(reader.problems) > before or not reader.sound:
        return Figure.nothing()
    return Figure(title, _height(sound, lanes), _draw(sound, lanes, until), _table(sound, lanes))


def _panel(entry: Fields, reader: Reader, lanes: Sequence[Lane], until: float) -> Panel | None:
    trade = reader.teaching.trade
    says, unit = entry.text("says"), trade.units.get(entry.reference("unit", "unit", trade.units))
    states, case = _states(entry, reader.teaching), read_case(entry, trade)
    entry.finish()
    if unit is None or case is None or states is None or not reader.sound:
        return None
    for lane in lanes:
        if not unit.has_output(lane.signal):
            known = {f"{part.id}.{port.name}" for part in unit.parts for port in part.behaviour.outputs}
            same = {name for name in known if name.startswith(lane.signal.split(".")[0] + ".")} or known
            found = say("publish.no-signal", unit=unit.id, signal=lane.signal)
            entry.fault(entry.source, found, listed(same), nearest(lane.signal, known))
            return None
    run = simulate(unit, [case], arrangement(trade.job, unit, states), duration=until)
    return Panel(says, timeline(run), tuple(_stretches(run, lane) for lane in lanes))


def _states(entry: Fields, teaching: Teaching) -> Mapping[str, str] | None:
    """Read the optional states of the job; None, with a problem, if one is unknown."""
    listing = entry.child("states", required=False)
    if listing is None:
        return {}
    variables, before = teaching.trade.job.variables, len(entry.problems)
    found = {}
    for name in listing.entries():
        if name in variables:
            found[name] = listing.choice(name, variables[name].values)
        else:
            listing.refer(listing.source_of(name), "states", "variable", name, variables)
    return found if len(entry.problems) == before else None


def _stretches(run: Run, lane: Lane) -> tuple[tuple[float, float], ...]:
    """Return the stretches of time [s] in which a lane is on."""
    on = run.signals[lane.signal][:, 0] > lane.above
    edges = np.flatnonzero(np.diff(np.concatenate(([0], on.astype(np.int64), [0]))))
    ends = [float(run.times[min(int(place), len(run.times) - 1)]) for place in edges]
    return tuple(zip(ends[::2], ends[1::2], strict=True))


def _height(panels: Sequence[Panel], lanes: Sequence[Lane]) -> float:
    return len(panels) * (HEAD + LANE * len(lanes)) + FOOT


def _draw(panels: Sequence[Panel], lanes: Sequence[Lane], until: float) -> Markup:
    right, shapes, top = WIDTH - RIGHT, [], 0.0

    def at(seconds: float) -> float:
        return LEFT + min(seconds, until) / until * (right - LEFT)

    for panel in panels:
        base = top + HEAD + LANE * len(lanes)
        shapes += _states_row(panel, at, until, top, base)
        for row, (lane, stretches) in enumerate(zip(lanes, panel.lanes, strict=True)):
            y = top + HEAD + row * LANE
            shapes += [text(LEFT - 8, y + 17, lane.says, anchor="end"), line(LEFT, y + LANE, right, y + LANE, "grid")]
            shapes += [rectangle(at(start), y + 4, at(end) - at(start), LANE - 8) for start, end in stretches]
        shapes.append(line(LEFT, top + HEAD, LEFT, base))
        top = base
    return joined([*shapes, *_time_axis(at, until, top)])


def _states_row(panel: Panel, at: Callable[[float], float], until: float, top: float, base: float) -> list[Markup]:
    """Return the panel's title, a rule at each change of the control's state, and the state's name where it fits."""
    shapes = [text(2, top + 19, panel.says, bold=True)]
    ends = [start for start, _ in panel.states[1:]] + [until]
    for (start, state), end in zip(panel.states, ends, strict=True):
        if start > 0:
            shapes.append(line(at(start), top + HEAD - 16, at(start), base, "grid"))
        if (at(end) - at(start)) >= SMALL / 2 * len(state):  # a letter is half as wide as it is high, near enough
            shapes.append(text(at(start) + 3, top + HEAD - 5, state, size=SMALL))
    return shapes


def _time_axis(at: Callable[[float], float], until: float, top: float) -> list[Markup]:
    step = next(step for step in (1, 2, 5, 10, 15, 30, 60, 120, 300, 600) if until / step <= MOST_TICKS)
    shapes = [line(LEFT, top, at(until), top)]
    for place in range(int(until / step) + 1):
        x = at(place * step)
        shapes += [line(x, top, x, top + 5), text(x, top + 19, write(place * step, "", 0), anchor="middle")]
    shapes.append(text((LEFT + at(until)) / 2, top + 37, say("publish.seconds"), anchor="middle"))
    return shapes


def _table(panels: Sequence[Panel], lanes: Sequence[Lane]) -> Table:
    """Return one row a panel: the states of the control, then when each lane is on."""
    rows = []
    for panel in panels:
        control = "; ".join(say("publish.state-from", state=state, at=write(at, "s", 1)) for at, state in panel.states)
        rows.append((panel.says, control, *(_spans(stretches) for stretches in panel.lanes)))
    return Table((say("publish.unit"), say("publish.control"), *(lane.says for lane in lanes)), tuple(rows))


def _spans(stretches: Sequence[tuple[float, float]]) -> str:
    spans = [say("publish.on-from-to", start=write(a, "", 1), end=write(b, "s", 1)) for a, b in stretches]
    return "; ".join(spans) or say("publish.never-on")
