"""Fault modes as data: each moves settings of parts by its severity, and names the repair that ends it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from courseware.content.provenance import Provenance
from courseware.heater.unit import Unit


@dataclass(frozen=True, slots=True)
class Change:
    """One setting moved, by a fault or by how a check is arranged.

    Attributes
    ----------
    part, setting : str
        What is moved; it concerns a unit only if the unit has it.
    at_none : float | None
        Value at severity 0, SI; None: the unit's own rating.
    at_worst : float
        Value at severity 1, SI; linear in between.
    only_on : Mapping[str, str]
        Unit features it needs; empty: every unit.
    """

    part: str
    setting: str
    at_none: float | None
    at_worst: float
    only_on: Mapping[str, str] = field(default_factory=dict)

    def applies_to(self, unit: Unit) -> bool:
        """Say whether the unit has the setting and the features."""
        return unit.has_setting(self.part, self.setting) and unit.fits(self.only_on)


@dataclass(frozen=True, slots=True)
class Repair:
    """What ends one or more faults.

    Attributes
    ----------
    id, title : str
        How it is referred to and called.
    minutes : float
        Usual time [min].
    lesson : str
        Where it is taught: ``lesson#section``.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    minutes: float
    lesson: str
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class FaultMode:
    """One way in which a unit fails.

    Attributes
    ----------
    id, title, repair : str
        How it is referred to and called, and the id of the repair.
    changes : tuple of Change
        What it moves.
    severities : tuple of float
        Equally likely grades [-] in (0, 1].
    odds : float
        Prior odds [-] that it is present on a service call.
    danger : str
        What it can do to people or property; empty if nothing beyond no heat.
    latent : str
        Why it may show nowhere on some units; empty: it shows.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    repair: str
    changes: tuple[Change, ...]
    severities: tuple[float, ...]
    odds: float
    danger: str
    latent: str
    provenance: Provenance

    def applies_to(self, unit: Unit) -> bool:
        """Say whether the unit has something that the fault moves, and lacks nothing it needs."""
        meant = [change for change in self.changes if unit.fits(change.only_on)]
        return bool(meant) and all(change.applies_to(unit) for change in meant)
