"""Kept signatures are the built ones, number for number, and other documents have others."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from courseware.diagnosis import keep
from courseware.diagnosis.keep import signatures_of
from courseware.diagnosis.signatures import build_signatures
from courseware.heater.kept import FOLDER_NAMED_BY
from courseware.heater.load import Trade


@pytest.fixture
def few(trade: Trade, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Trade:
    """Give a trade of eight faults, so that a test may build it anew, and an empty place to keep it."""
    monkeypatch.setenv(FOLDER_NAMED_BY, str(tmp_path))
    return replace(trade, faults=dict(list(trade.faults.items())[:8]))


def test_what_is_read_back_is_what_was_built(few: Trade, monkeypatch: pytest.MonkeyPatch) -> None:
    for unit in few.units.values():
        built = build_signatures(unit, few)
        signatures_of(unit, few)
        with monkeypatch.context() as patch:
            patch.setattr(keep, "build_signatures", None)  # from here on it must come from the disk
            found = signatures_of(unit, few)
        assert (found.checks, found.complaints, found.outcomes) == (built.checks, built.complaints, built.outcomes)
        assert found.row_of == built.row_of
        assert np.array_equal(found.rows, built.rows)
        for check in built.checks:
            ours, theirs = found.finds[check.id], built.finds[check.id]
            assert ours.states == theirs.states
            assert np.array_equal(ours.moments[check.moment], theirs.moments[check.moment])
            assert list(ours.signals) == list(theirs.signals)
            assert all(np.array_equal(ours.signals[name], theirs.signals[name]) for name in theirs.signals)


def test_a_fault_that_is_seen_more_often_is_built_anew(few: Trade) -> None:
    unit = next(iter(few.units.values()))
    before = signatures_of(unit, few)
    name, fault = next((name, one) for name, one in few.faults.items() if one.applies_to(unit))
    after = signatures_of(unit, replace(few, faults={**few.faults, name: replace(fault, odds=2 * fault.odds)}))
    assert not np.array_equal(before.space.prior, after.space.prior)
