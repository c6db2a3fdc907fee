"""States of the job: what the technician has done to the unit, and what the unit could do in that state.

A variable is a thing at the job that has been put one way or another: the disconnect, the air line,
a bridge, the cover. Each value may change part settings, so that a state of the job is a unit
arranged in a certain way. What matters for safety is not written down but found: a start is
simulated in that arrangement, and the derived facts read from it whether oil could flow, a spark
could fire, the control would start at all. A fault on the unit therefore changes the facts, and
with them what is safe, without a word of code about that fault.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from courseware.content.documents import Document
from courseware.content.problems import Problems
from courseware.content.source import Source

if TYPE_CHECKING:
    from courseware.heater.faults import Change
    from courseware.heater.simulate import Case
    from courseware.heater.unit import Unit


@dataclass(frozen=True, slots=True)
class Variable:
    """One thing at the job that can be in one of several states.

    Attributes
    ----------
    id, title : str
        Name in the data, and in words.
    values : tuple of str
        The states it can be in.
    start : str
        The state it is in when a technician arrives, unless a procedure says otherwise.
    changes : mapping of value to tuple of Change
        What a state does to the unit's parts; a value that changes nothing is not in it.
    only_on : mapping of feature to value
        The units that have it; empty for all units.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    values: tuple[str, ...]
    start: str
    changes: "Mapping[str, tuple[Change, ...]]"
    only_on: Mapping[str, str]
    source: Source


@dataclass(frozen=True, slots=True)
class Derived:
    """A fact about a state, read from a start simulated in it: "yes" if the signal exceeds a level, else "no".

    Attributes
    ----------
    id, title : str
        Name in the data, and in words.
    signal : str
        The part output that is watched, as ``part.output``.
    above : float
        The level [unit of the signal] that the signal must exceed.
    when : str
        ``ever``: at any time of the start; ``end``: when the simulated start has run its course.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    signal: str
    above: float
    when: str
    source: Source


@dataclass(frozen=True, slots=True)
class Job:
    """All variables and derived facts of the job, by id."""

    variables: Mapping[str, Variable]
    derived: Mapping[str, Derived]


def load_job(documents: Sequence[Document], problems: Problems) -> Job:
    """Read every document of kind ``job``; faults go to ``problems``."""
    return Job({}, {})


def consequences(
    job: Job, unit: "Unit", states: Sequence[Mapping[str, str]], case: "Case" = ()
) -> tuple[Mapping[str, str], ...]:
    """Return the derived facts of each state, by simulating a start in it."""
    raise NotImplementedError
