"""Signatures kept on disk under the hash of what they were made from: unit, faults, checks, complaints, code."""

import io
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Final

import numpy as np

from courseware.diagnosis.signatures import Signatures, build_signatures, read_from
from courseware.diagnosis.space import build_space
from courseware.heater.checks import Check
from courseware.heater.kept import kept, source_digest
from courseware.heater.load import Trade
from courseware.heater.readings import outcomes
from courseware.heater.simulate import Run
from courseware.heater.unit import Unit

_ROOM: Final = Path(__file__).parent
_SAID: Final = "complaints"


def signatures_of(unit: Unit, trade: Trade) -> Signatures:
    """Return the signatures of a unit: what :func:`build_signatures` makes, simulated once and kept on disk."""
    data = kept(_made_from(unit, trade), lambda: _written(build_signatures(unit, trade)))
    with np.load(io.BytesIO(data), allow_pickle=False) as arrays:
        return _read(arrays, unit, trade)


def _made_from(unit: Unit, trade: Trade) -> Iterator[bytes]:
    yield source_digest(_ROOM, _ROOM.parent / "heater", _ROOM.parent / "physics")
    for things in ((unit,), trade.faults.values(), trade.checks.values(), trade.complaints):
        yield "\n".join(map(repr, things)).encode()


def _written(signatures: Signatures) -> bytes:
    said = list(signatures.said)
    arrays: dict[str, Any] = {_SAID: np.array([said.index(one) for one in signatures.complaints])}
    for check in signatures.checks:
        found = signatures.finds[check.id]
        arrays[f"{check.id} table"] = signatures.tables[check.id]
        arrays[f"{check.id} when"] = found.moments[check.moment]
        for signal, values in found.signals.items():
            arrays[f"{check.id} {signal}"] = values
    data = io.BytesIO()
    np.savez(data, **arrays)
    return data.getvalue()


def _read(arrays: Mapping[str, Any], unit: Unit, trade: Trade) -> Signatures:
    checks = tuple(check for check in trade.checks.values() if check.applies_to(unit))
    said = {complaint.id: complaint for complaint in trade.complaints}
    names = tuple(said)
    return Signatures(
        space=build_space(unit, trade),
        checks=checks,
        complaints=tuple(names[place] for place in arrays[_SAID]),
        tables={check.id: arrays[f"{check.id} table"] for check in checks},
        outcomes={check.id: outcomes(unit, check) for check in checks},
        said=said,
        finds={check.id: _found(arrays, unit, check) for check in checks},
    )


def _found(arrays: Mapping[str, Any], unit: Unit, check: Check) -> Run:
    states = next(part.behaviour.states for part in unit.parts if part.behaviour.states)
    signals = {signal: arrays[f"{check.id} {signal}"] for signal in read_from(check)}
    return Run(unit, np.zeros(1), signals, {check.moment: arrays[f"{check.id} when"]}, states)
