"""Checks as data: where and when a reading is taken, with what error, and what each band of it means."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.content.provenance import Provenance
from courseware.heater.faults import Change
from courseware.heater.unit import Unit


@dataclass(frozen=True, slots=True)
class Condition:
    """A signal held to a range at a moment.

    Attributes
    ----------
    signal : str
        ``part.output``.
    moment : str
        A moment of the run, or ``ever``: the highest value of the whole run.
    low, high : float | None
        Range [SI unit of the signal]: low <= value < high; None: open.
    """

    signal: str
    moment: str
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Band:
    """One band of readings: ``low <= reading < high``.

    Attributes
    ----------
    id : str
        The outcome's name, unique in its check.
    low, high : float | str | None
        Edges [unit of the check]; text names a limit of the unit; None: open.
    says : str
        What a reading in the band means, in the technician's words.
    """

    id: str
    low: float | str | None
    high: float | str | None
    says: str


@dataclass(frozen=True, slots=True)
class Check:
    """One check a technician makes.

    Attributes
    ----------
    id, title, asks : str
        How it is referred to and called, and what to do, as an instruction.
    tools, hazards : tuple of str
        What is needed, and what can hurt.
    minutes : float
        Usual time [min].
    needs : Mapping[str, tuple of str]
        Variables of the job and the values they may have while the check is made.
    signal : str
        ``part.output`` that is read; the check applies to a unit iff the unit has it.
    moment : str
        standby, prepurge, trial, run or end.
    given : tuple of Condition
        What must hold at that moment for there to be something to read.
    unit : str
        Unit of the reading; empty: it is seen or heard, and shown in the words of its band.
    resolution, error : float
        Step of the display and standard deviation of the reading [unit].
    top : float | None
        Highest reading of the instrument [unit]; above it the display shows OL. None: no such limit.
    bands : tuple of Band
        They cover the line without overlap, lowest first.
    changes : tuple of Change
        How the unit is arranged while the check is made.
    cannot : str
        What the sheet says when there is nothing to read.
    strong : bool
        The reading alone tells the part good from bad.
    lesson : str
        Where it is taught: ``lesson#section``.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    asks: str
    tools: tuple[str, ...]
    hazards: tuple[str, ...]
    minutes: float
    needs: Mapping[str, tuple[str, ...]]
    signal: str
    moment: str
    given: tuple[Condition, ...]
    unit: str
    resolution: float
    error: float
    top: float | None
    bands: tuple[Band, ...]
    changes: tuple[Change, ...]
    cannot: str
    strong: bool
    lesson: str
    provenance: Provenance

    def applies_to(self, unit: Unit) -> bool:
        """Say whether the unit has what the check reads."""
        return unit.has_output(self.signal) and all(unit.has_output(one.signal) for one in self.given)
