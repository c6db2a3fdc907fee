"""What is kept: found again by what it was made from, made again when damaged, never a reason to fail."""

import os
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from courseware.heater import kept as kept_module
from courseware.heater.kept import FOLDER_NAMED_BY, folder, kept, source_digest
from courseware.heater.load import Trade
from courseware.heater.simulate import MOST_KEPT, simulate


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(FOLDER_NAMED_BY, str(tmp_path / "kept"))
    return tmp_path / "kept"


def counting() -> tuple[list[int], Callable[[], bytes]]:
    made: list[int] = []

    def make() -> bytes:
        made.append(1)
        return b"outcome"

    return made, make


def test_the_same_things_are_worked_out_once() -> None:
    made, make = counting()
    assert [kept((b"a", b"b"), make), kept((b"a", b"b"), make)] == [b"outcome"] * 2
    assert len(made) == 1


def test_other_things_are_other_outcomes_wherever_one_thing_ends() -> None:
    made, make = counting()
    for things in ((b"a", b"b"), (b"ab",), (b"a",), (b"a", b"b", b""), ()):
        kept(things, make)
    assert len(made) == 5


@pytest.mark.parametrize("damage", [lambda data: data[:-1], lambda _: b"", lambda data: data[:-1] + b"\0"])
def test_a_damaged_file_is_made_again(place: Path, damage: Callable[[bytes], bytes]) -> None:
    made, make = counting()
    kept((b"a",), make)
    (path,) = place.iterdir()
    whole = path.read_bytes()
    path.write_bytes(damage(whole))
    assert kept((b"a",), make) == b"outcome"
    assert len(made) == 2
    assert path.read_bytes() == whole


def test_a_disk_that_takes_nothing_is_no_fault(place: Path) -> None:
    place.write_bytes(b"a file where the folder should be")
    assert kept((b"a",), lambda: b"outcome") == b"outcome"


def test_what_fails_is_not_kept(place: Path) -> None:
    with pytest.raises(ZeroDivisionError):
        kept((b"a",), lambda: bytes(1 // 0))
    assert not place.exists()


def test_the_older_half_goes_when_there_are_too_many(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept_module, "MOST_FILES", 4)
    for number in range(5):
        kept((bytes([number]),), lambda: b"outcome")
        for path in place.iterdir():
            os.utime(path, (path.stat().st_mtime - 10, path.stat().st_mtime - 10))
    made, make = counting()
    for number in (4, 3, 2, 1, 0):
        kept((bytes([number]),), make)
    assert len(made) == 2


def test_without_a_word_it_is_the_users_cache(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv(FOLDER_NAMED_BY)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert folder().name == "courseware"


def test_other_code_gives_another_digest(tmp_path: Path) -> None:
    digests = set()
    for name, text in (("one", "a = 1"), ("two", "a = 2")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "part.py").write_text(text, encoding="utf-8")
        digests.add(source_digest(tmp_path / name))
    assert len(digests) == 2


def test_a_kept_run_is_the_run_itself(trade: Trade, place: Path) -> None:
    """Bit for bit; and a batch so large that it is not kept says the same."""
    unit = next(iter(trade.units.values()))
    cases = [(), *(((fault, grade),) for fault in trade.faults.values() for grade in fault.severities)]
    few = cases[:MOST_KEPT]
    first, again, many = simulate(unit, few), simulate(unit, few), simulate(unit, few + few)
    assert len(list(place.iterdir())) == 1
    for name, values in first.signals.items():
        assert np.array_equal(values, again.signals[name])
        np.testing.assert_allclose(many.signals[name][:, : len(few)], values, rtol=1e-12)
    for moment, when in first.moments.items():
        assert np.array_equal(when, again.moments[moment])


def test_a_unit_that_is_set_otherwise_is_simulated_anew(trade: Trade, place: Path) -> None:
    units = list(trade.units.values())
    fault = next(one for one in trade.faults.values() if one.applies_to(units[0]))
    for unit, case, duration in ((units[0], (), 20.0), (units[1], (), 20.0), (units[0], (), 30.0)):
        simulate(unit, [case], duration=duration)
    simulate(units[0], [((fault, fault.severities[0]),)], duration=20.0)
    assert len(list(place.iterdir())) == 4
