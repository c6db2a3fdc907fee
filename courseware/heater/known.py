"""What the units together have: the settings, signals and features that other documents may name."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest, shown
from courseware.content.words import say
from courseware.heater.amounts import hold_amount, read_amount
from courseware.heater.faults import Change
from courseware.heater.parts.base import Port, Setting
from courseware.heater.unit import Unit

LimitUnits = dict[tuple[str, str], str]  # (unit id, limit) to the unit it was written in


@dataclass(frozen=True, slots=True)
class Known:
    """Every name that a change, a condition or a feature may have.

    Attributes
    ----------
    units : tuple of Unit
        All units.
    limit_units : LimitUnits
        What the limits of the units measure.
    settings : Mapping[str, Setting]
        ``part.setting``; where units differ in the kind, the first unit's.
    signals : Mapping[str, Port]
        ``part.output``.
    features : Mapping[str, frozenset of str]
        Feature name to the values that units have.
    """

    units: tuple[Unit, ...]
    limit_units: LimitUnits
    settings: Mapping[str, Setting]
    signals: Mapping[str, Port]
    features: Mapping[str, frozenset[str]]

    def has_target(self, change: Change) -> bool:
        """Say whether some unit has the setting and some unit has each of the features."""
        features = (value in self.features.get(name, ()) for name, value in change.only_on.items())
        return f"{change.part}.{change.setting}" in self.settings and all(features)


def known_of(units: tuple[Unit, ...], limit_units: LimitUnits) -> Known:
    """Collect the names of all units."""
    settings: dict[str, Setting] = {}
    signals: dict[str, Port] = {}
    features: dict[str, frozenset[str]] = {}
    for unit in units:
        for part in unit.parts:
            for setting in part.behaviour.settings:
                settings.setdefault(f"{part.id}.{setting.name}", setting)
            for port in part.behaviour.outputs:
                signals.setdefault(f"{part.id}.{port.name}", port)
        for name, value in unit.features.items():
            features[name] = features.get(name, frozenset()) | {value}
    return Known(units, limit_units, settings, signals, features)


def read_fault_changes(fields: Fields, known: Known) -> tuple[Change, ...]:
    """Read ``changes`` of a fault: each with part, setting, at_worst, and perhaps at_none and only_on."""
    return tuple(_fault_change(change, known) for change in fields.children("changes", "change"))


def _fault_change(fields: Fields, known: Known) -> Change:
    part, setting, unit = _target(fields, known)
    at_none = _amount(fields, "at_none", f"{part}.{setting}", known) if fields.has("at_none") else None
    worst = _amount(fields, "at_worst", f"{part}.{setting}", known) if unit is not None else _skip(fields, "at_worst")
    change = Change(part, setting, at_none, worst, read_only_on(fields, known))
    fields.finish()
    return change


def read_arrangement(fields: Fields, known: Known) -> tuple[Change, ...]:
    """Read ``changes`` of a check, if any: each with part, setting, to, and perhaps only_on."""
    found = []
    for change in fields.children("changes", "change", required=False):
        part, setting, unit = _target(change, known)
        to = _amount(change, "to", f"{part}.{setting}", known) if unit is not None else _skip(change, "to")
        found.append(Change(part, setting, None, to, read_only_on(change, known)))
        change.finish()
    return tuple(found)


def _skip(fields: Fields, key: str) -> float:
    """Ask for a key whose meaning is unknown, so that it is not reported as unknown too."""
    fields.node(key)
    return 0.0


def _target(fields: Fields, known: Known) -> tuple[str, str, str | None]:
    """Return part, setting, and the setting's SI unit; None, with a problem, if no unit has the setting."""
    part, setting = fields.text("part"), fields.text("setting")
    name = f"{part}.{setting}"
    if not part or not setting:
        return part, setting, None
    if name not in known.settings:
        found = say("heater.no-setting", found=shown(name))
        allowed = [one for one in known.settings if one.startswith(f"{part}.")]
        key = "setting" if allowed else "part"
        fields.fault(
            fields.source_of(key), found, listed(allowed or {one.split(".")[0] for one in known.settings}),
            nearest(name, known.settings),
        )  # fmt: skip
        return part, setting, None
    return part, setting, known.settings[name].unit


def _amount(fields: Fields, key: str, name: str, known: Known) -> float:
    setting = known.settings[name]
    value = read_amount(fields, key, setting.unit)
    hold_amount(fields, key, value, setting)
    return value


def read_only_on(fields: Fields, known: Known) -> Mapping[str, str]:
    """Read the optional key ``only_on: {feature: value}``."""
    features = fields.child("only_on", required=False)
    if features is None:
        return {}
    found = {}
    for name in features.entries():
        value = features.text(name)
        values = known.features.get(name)
        if values is None:
            features.fault(
                features.source_of(name), say("heater.no-feature", found=name), listed(known.features),
                nearest(name, known.features),
            )  # fmt: skip
        elif value and value not in values:
            features.fault(
                features.source_of(name), say("heater.no-feature-value", name=name, value=shown(value)), listed(values),
                nearest(value, values),
            )  # fmt: skip
        found[name] = value
    return found


def read_signal(fields: Fields, known: Known) -> tuple[str, str]:
    """Read ``signal: part.output``; return it with its SI unit, empty with a problem if no unit has it."""
    signal = fields.text("signal")
    if signal and signal not in known.signals:
        part = signal.partition(".")[0]
        allowed = [one for one in known.signals if one.startswith(f"{part}.")] or known.signals
        fields.fault(
            fields.source_of("signal"), say("heater.no-signal", found=shown(signal)), listed(allowed),
            nearest(signal, known.signals),
        )  # fmt: skip
        return "", ""
    return signal, known.signals[signal].unit if signal else ""
