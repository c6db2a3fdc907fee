"""What the heater's tests share: one part on the bench, and documents of a test's own."""

import random
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.heater.load import HEATER_KINDS, Trade, load_trade
from courseware.heater.parts.base import PartKind
from courseware.heater.unit import Part, Unit


def settings_of(kind: PartKind, **given: float) -> dict[str, Any]:
    """Return all settings of a kind: those given, else its default, else the middle of its range."""
    names = {setting.name for setting in kind.settings}
    assert given.keys() <= names, given.keys() - names
    return {
        setting.name: np.float64(given.get(setting.name, _usual(setting.default, setting.low, setting.high)))
        for setting in kind.settings
    }


def _usual(default: float | None, low: float, high: float) -> float:
    return (low + high) / 2 if default is None else default


def settle(kind: PartKind, inputs: Mapping[str, float], steps: int = 200, /, **given: float) -> dict[str, Any]:
    """Return the outputs of one part after many steps of half a second with the same inputs."""
    settings = settings_of(kind, **given)
    memory: Mapping[str, Any] = {name: np.float64(value) for name, value in kind.start(settings).items()}
    outputs: dict[str, Any] = {}
    for _ in range(steps):
        outputs, memory = kind.step(settings, _wired(kind, inputs), memory, 0.5)
    assert outputs.keys() == kind.output_names
    return outputs


def _wired(kind: PartKind, inputs: Mapping[str, float]) -> dict[str, np.float64]:
    """Return all inputs: those given, else what a port has that nothing is wired to."""
    unwired = {port.name: port.default for port in kind.inputs if port.default is not None}
    return {name: np.float64(value) for name, value in {**unwired, **inputs}.items()}


def follow(kind: PartKind, inputs: Sequence[Mapping[str, float]], output: str, /, **given: float) -> list[float]:
    """Return one output of one part, half-second by half-second."""
    settings = settings_of(kind, **given)
    memory: Mapping[str, Any] = {name: np.float64(value) for name, value in kind.start(settings).items()}
    found = []
    for one in inputs:
        outputs, memory = kind.step(settings, _wired(kind, one), memory, 0.5)
        found.append(float(outputs[output]))
    return found


def load(folder: Path, **documents: str) -> tuple[Trade, str]:
    """Write documents into a course folder and load them; return the trade and the whole report."""
    bank = folder / "question_bank"
    bank.mkdir(parents=True, exist_ok=True)
    for name, text in documents.items():
        (bank / f"{name}.yaml").write_text(text, encoding="utf-8")
    problems = Problems()
    trade = load_trade(read_documents(folder, HEATER_KINDS, problems), problems)
    return trade, "\n".join(str(problem) for problem in problems)


def part(unit: Unit, name: str) -> Part:
    """Return one part of a unit."""
    return next(one for one in unit.parts if one.id == name)


def chance_of(seed: int) -> random.Random:
    """Return a generator of a named seed."""
    return random.Random(seed)  # noqa: S311  # an instrument's error need not be secret
