"""Unit documents read: parts of known kinds, every input wired, no loop without a late input, one control."""

import re
from collections.abc import Iterable, Mapping
from typing import Final

from courseware.content.documents import Document
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest, shown
from courseware.content.provenance import read_provenance
from courseware.content.words import say
from courseware.heater.amounts import hold_amount, read_amount, read_measured
from courseware.heater.known import LimitUnits
from courseware.heater.parts import PART_KINDS, WITHOUT
from courseware.heater.parts.base import PartKind, Port
from courseware.heater.unit import Part, Unit
from courseware.heater.wiring import LoopError, stepping_order

_ROLE: Final = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")


def load_unit(document: Document, problems: Problems, limit_units: LimitUnits) -> Unit:
    """Read one unit document.

    Parameters
    ----------
    document : Document
        Of kind ``unit``.
    problems : Problems
        Receives every fault found.
    limit_units : dict
        Receives what each limit measures, for the checks that use it.
    """
    fields = document.fields("unit", problems)
    name = fields.identifier()
    fields.where = f"unit '{name}'"
    title, summary = fields.text("title"), fields.text("summary")
    declared, limits = _words(fields), _limits(fields, name, limit_units)
    read = [_part(one) for one in fields.children("parts", "part")]
    parts = tuple(part for part in read if part is not None)
    provenance = read_provenance(fields)
    fields.finish()
    if len(parts) == len(read):
        _check_whole(fields, parts)
    features = dict(WITHOUT)
    for part in parts:
        features.update(part.behaviour.features(part.settings))
    for word in declared.keys() & features.keys():
        fields.fault(
            fields.source_of("features"), say("heater.feature-taken", name=word),
            advice=say("heater.feature-taken-try"),
        )  # fmt: skip
    return Unit(name, title, summary, declared | features, limits, parts, provenance)


def _words(fields: Fields) -> dict[str, str]:
    """Read the declared features."""
    features = fields.child("features", required=False)
    return {} if features is None else {name: features.text(name) for name in features.entries()}


def _limits(fields: Fields, unit: str, limit_units: LimitUnits) -> Mapping[str, float]:
    found: dict[str, float] = {}
    limits = fields.child("limits", required=False)
    for name in {} if limits is None else limits.entries():
        assert limits is not None
        found[name], limit_units[unit, name] = read_measured(limits, name)
    return found


def _part(fields: Fields) -> Part | None:
    """Read one part; None, with a problem, if its kind is not known."""
    name = fields.text("id")
    if name and not _ROLE.fullmatch(name):
        fields.fault(
            fields.source_of("id"), say("heater.bad-part-id", found=shown(name)), say("heater.bad-part-id-allowed")
        )
    kind = PART_KINDS.get(fields.choice("kind", PART_KINDS))
    if kind is None:
        return None
    settings, wires = _settings(fields, kind), _wires(fields, kind)
    fields.finish()
    return Part(name, kind.name, settings, wires, fields.source)


def _settings(fields: Fields, kind: PartKind) -> Mapping[str, float]:
    required = any(setting.default is None for setting in kind.settings)
    given = fields.child("settings", required=required)
    if given is None:
        return {setting.name: setting.default or 0.0 for setting in kind.settings}
    found = {}
    for setting in kind.settings:
        value = read_amount(given, setting.name, setting.unit, setting.default)
        if given.has(setting.name):
            hold_amount(given, setting.name, value, setting)
        found[setting.name] = value
    given.finish()
    return found


def _wires(fields: Fields, kind: PartKind) -> Mapping[str, str]:
    given = fields.child("wires", required=any(port.default is None for port in kind.inputs))
    if given is None:
        return {}
    wires = {port.name: given.text(port.name) for port in kind.inputs if given.has(port.name)}
    for port in kind.inputs:
        if port.default is None and not given.has(port.name):
            given.fault(
                given.source, say("heater.not-wired", input=port.name),
                advice=say("heater.not-wired-try", input=port.name),
            )  # fmt: skip
        else:
            given.node(port.name, required=False)  # asked for, so that finish() reports the truly unknown alone
    given.finish()
    return wires


def _check_whole(fields: Fields, parts: tuple[Part, ...]) -> None:
    """Hold the parts against each other: ids, wires, loops, the control."""
    outputs = {f"{part.id}.{port.name}": port for part in parts for port in part.behaviour.outputs}
    ids = [part.id for part in parts]
    sound = True
    for index, part in enumerate(parts):
        if part.id in ids[:index]:
            fields.problems.add(part.source, _where(fields, part), say("heater.part-twice", id=part.id))
            sound = False
        for name in part.wires:
            sound &= _wire_is_sound(fields, part, name, outputs)
    if sound:
        _check_sequence(fields, parts)


def _check_sequence(fields: Fields, parts: tuple[Part, ...]) -> None:
    """Hold the parts to one control, and to no loop without a late input."""
    controls = [part for part in parts if part.behaviour.states]
    if len(controls) != 1:
        kinds = listed(kind.name for kind in PART_KINDS.values() if kind.states)
        fields.fault(
            fields.source_of("parts"), say("heater.no-control", count=len(controls)),
            say("heater.no-control-allowed", kinds=kinds),
        )  # fmt: skip
    try:
        stepping_order(parts)
    except LoopError as error:
        late = listed(f"{part.id}.{port.name}" for part in parts for port in part.behaviour.inputs if port.late)
        fields.fault(
            fields.source_of("parts"), say("heater.loop", parts=str(error)),
            advice=say("heater.loop-try", inputs=late),
        )  # fmt: skip


def _where(fields: Fields, part: Part) -> str:
    return f"{fields.where}, part '{part.id}'"


def _wire_is_sound(fields: Fields, part: Part, name: str, outputs: Mapping[str, Port]) -> bool:
    found = part.wires[name]
    wanted = next(port for port in part.behaviour.inputs if port.name == name)
    fits = [ref for ref, port in outputs.items() if port.unit == wanted.unit]
    if found not in outputs:
        fields.problems.add(
            part.source, _where(fields, part), say("heater.no-output", input=name, found=shown(found)), listed(fits),
            nearest(found, outputs),
        )  # fmt: skip
        return False
    given = outputs[found]
    if given.unit != wanted.unit:
        plain = say("heater.plain-number")
        fields.problems.add(
            part.source, _where(fields, part),
            say("heater.wrong-wire", input=name, wants=wanted.unit or plain, found=found, gives=given.unit or plain),
            listed(fits),
        )  # fmt: skip
        return False
    return True


def load_units(documents: Iterable[Document], problems: Problems, limit_units: LimitUnits) -> tuple[Unit, ...]:
    """Read every unit document."""
    return tuple(load_unit(document, problems, limit_units) for document in documents if document.kind == "unit")
