"""What holds for every part kind."""

from pathlib import Path

import numpy as np
import pytest

from courseware.heater import parts
from courseware.heater.parts import PART_KINDS
from courseware.heater.parts.base import OPEN_CIRCUIT, PartKind, approach
from courseware.physics.units import UNITS
from tests.heater.bench import settings_of

HERE = Path(__file__).parent
KINDS = pytest.mark.parametrize("kind", PART_KINDS.values(), ids=PART_KINDS)
SHARED = {"__init__", "base", "coil", "spray"}


def test_every_file_is_one_kind_in_the_registry_with_a_test_of_its_name() -> None:
    files = {path.stem for path in Path(parts.__file__).parent.glob("*.py")} - SHARED
    assert {kind.name.replace("-", "_") for kind in PART_KINDS.values()} == files
    assert {path.stem.removeprefix("test_") for path in HERE.glob("test_*.py")} == files | {"parts"}


@KINDS
def test_settings_are_in_their_ranges_and_units_are_known(kind: PartKind) -> None:
    for setting in kind.settings:
        assert setting.low < setting.high
        assert setting.default is None or setting.low <= setting.default <= setting.high
        assert setting.unit in UNITS
        assert setting.meaning
    for port in (*kind.inputs, *kind.outputs):
        assert port.unit in UNITS
        assert port.meaning
    names = [setting.name for setting in kind.settings]
    assert len(set(names)) == len(names)


@KINDS
def test_a_step_gives_all_outputs_and_changes_nothing_it_is_given(kind: PartKind) -> None:
    count = 4
    settings = {name: np.full(count, value) for name, value in settings_of(kind).items()}
    inputs = {port.name: np.linspace(0.0, 1.0, count) for port in kind.inputs}
    memory = {name: np.full(count, value, dtype=float) for name, value in kind.start(settings_of(kind)).items()}
    before = [{name: value.copy() for name, value in group.items()} for group in (settings, inputs, memory)]
    outputs, kept = kind.step(settings, inputs, memory, 0.5)
    assert outputs.keys() == kind.output_names
    assert kept.keys() == memory.keys()
    for group, old in zip((settings, inputs, memory), before, strict=True):
        for name, value in group.items():
            np.testing.assert_array_equal(value, old[name])
    for value in outputs.values():
        assert np.all(np.isfinite(value))


def test_only_a_control_has_states() -> None:
    assert [kind.name for kind in PART_KINDS.values() if kind.states] == ["primary-control"]


def test_approach_is_a_first_order_lag() -> None:
    assert approach(0.0, 10.0, 0.5, 1.0) == 5.0
    assert approach(0.0, 10.0, 0.5, 0.0) == 10.0  # no lag at all
    assert approach(10.0, 10.0, 0.5, 3.0) == 10.0
    assert OPEN_CIRCUIT > 2e7  # beyond the range of any meter
