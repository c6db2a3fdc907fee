"""A heater as a document: parts of known kinds, wired output to input, with the unit's own limits."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.heater.parts import PART_KINDS
from courseware.heater.parts.base import PartKind


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a unit.

    Attributes
    ----------
    id : str
        Its role, the same word on every unit: ``transformer``, ``air_regulator`` ...
    kind : str
        The part kind whose behaviour it has; a key of ``PART_KINDS``.
    settings : Mapping[str, float]
        Every setting of the kind, SI; the kind's default where the document is silent.
    wires : Mapping[str, str]
        Input name to the ``part.output`` that feeds it.
    source : Source
        Where the part is written.
    """

    id: str
    kind: str
    settings: Mapping[str, float]
    wires: Mapping[str, str]
    source: Source

    @property
    def behaviour(self) -> PartKind:
        """Return the kind itself."""
        return PART_KINDS[self.kind]


@dataclass(frozen=True, slots=True)
class Unit:
    """One heater profile.

    Attributes
    ----------
    id, title, summary : str
        How it is referred to, called and described.
    features : Mapping[str, str]
        Words that rules and procedures branch on, such as ``delivery: siphon``: what the parts imply,
        and what the document declares.
    limits : Mapping[str, float]
        Named verdict limits, SI; the edges of check bands.
    parts : tuple of Part
        In the author's order, which means nothing to the simulator.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    summary: str
    features: Mapping[str, str]
    limits: Mapping[str, float]
    parts: tuple[Part, ...]
    provenance: Provenance

    def setting(self, part: str, setting: str) -> float | None:
        """Return the unit's own value of a setting, SI; None if the unit has no such setting."""
        for one in self.parts:
            if one.id == part:
                return one.settings.get(setting)
        return None

    def has_setting(self, part: str, setting: str) -> bool:
        """Say whether the unit has the part and the part has the setting."""
        return self.setting(part, setting) is not None

    def has_output(self, signal: str) -> bool:
        """Say whether the unit has the signal ``part.output``."""
        part, _, output = signal.partition(".")
        return any(one.id == part and output in one.behaviour.output_names for one in self.parts)

    def fits(self, only_on: Mapping[str, str]) -> bool:
        """Say whether the unit has all the named features; an empty mapping fits every unit."""
        return all(self.features.get(name) == value for name, value in only_on.items())
