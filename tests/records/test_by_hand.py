"""Points by hand are part of the signed entry that replaces a result: with who decided, and never for oneself."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.records.by_hand import hand_marks
from courseware.records.errors import EntryRefusedError
from courseware.records.ledger import begin, head
from courseware.records.people import enroll, erase
from courseware.records.registers import results_of
from courseware.records.results import Marks, record_result
from courseware.records.signers import add_signer, retire_signer
from courseware.records.store import Store, open_store
from courseware.records.verify import verify
from tests.records.story import FIRST, NINE, SECOND, answered, clock, passed, salts

FAILED = Marks("7K3Q", Fraction(1, 2), 0.8, passed=False, supervised_by=FIRST.id)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """T-0001 and T-0003 sign; T-0002 has answered form 7K3Q and failed."""
    now = clock()
    with open_store(tmp_path / "records.sqlite", create=True, salts=salts()) as opened:
        begin(opened, "Northfield Heater Service", "Ann Reyes", FIRST, now())
        jo = enroll(opened, "Jo Lund", "jo@example.com", FIRST, now())
        bo = enroll(opened, "Bo Vise", "bo@example.com", FIRST, now())
        add_signer(opened, bo.id, SECOND.public, FIRST, now())
        answered(opened, jo.id, "7K3Q", now)
        record_result(opened, FAILED, FIRST, now())
        yield opened


def changed(store: Store, points: dict[int, Fraction], **other: object) -> Marks:
    standing = results_of(store, "T-0002")[-1]
    marks = replace(
        passed("7K3Q"), replaces=standing.seq, reason="the exhibit lacked a row", by_hand=points, decided_by=SECOND.id
    )
    return replace(marks, **other)  # type: ignore[arg-type]  # any field, wrongly filled on purpose


def test_a_change_is_kept_with_its_reason_and_who_decided_it(store: Store) -> None:
    first = record_result(store, changed(store, {3: Fraction(3, 2)}), FIRST, NINE.replace(hour=10))
    assert (first.body["by_hand"], first.body["decided_by"]) == ({"3": "1.5"}, SECOND.id)
    second = record_result(store, changed(store, {3: Fraction(2), 11: Fraction(0)}), FIRST, NINE.replace(hour=11))
    assert [(one.seq, one.item, one.points, one.reason, one.signer_name) for one in hand_marks(store, "7K3Q")] == [
        (first.seq, 3, Fraction(3, 2), "the exhibit lacked a row", "Bo Vise"),
        (second.seq, 11, Fraction(0), "the exhibit lacked a row", "Bo Vise"),
        (second.seq, 3, Fraction(2), "the exhibit lacked a row", "Bo Vise"),
    ]
    assert hand_marks(store, "none") == ()
    assert [one.replaced_by for one in results_of(store, "T-0002")] == [first.seq, second.seq, None]
    assert verify(store).ok


def test_a_result_without_points_by_hand_says_nothing_of_them(store: Store) -> None:
    event = record_result(store, changed(store, {}, decided_by=None), FIRST, NINE.replace(hour=10))
    assert not {"by_hand", "decided_by"} & set(event.body)


def test_the_name_of_who_decided_goes_with_their_erasure(store: Store) -> None:
    record_result(store, changed(store, {3: Fraction(1)}), FIRST, NINE.replace(hour=10))
    retire_signer(store, SECOND.id, "left the company", FIRST, NINE.replace(hour=11))
    erase(store, "T-0003", FIRST, NINE.replace(hour=11))
    assert [one.signer_name for one in hand_marks(store, "7K3Q")] == [None]


@pytest.mark.parametrize(
    ("other", "told"),
    [
        ({"decided_by": None}, "wrong-shape"),
        ({"by_hand": {}}, "wrong-shape"),
        ({"replaces": None}, "by-hand-alone"),
        ({"reason": " "}, "replaces-without-reason"),
        ({"reason": "Jo Lund asked for it"}, "names-person"),
        ({"decided_by": "0" * 32}, "unknown-signer"),
        ({"by_hand": {0: Fraction(1)}}, "wrong-shape"),
        ({"by_hand": {3: Fraction(-1)}}, "wrong-shape"),
    ],
)
def test_what_is_no_sound_change_is_refused(store: Store, other: dict[str, object], told: str) -> None:
    before = head(store)
    with pytest.raises(EntryRefusedError) as refused:
        record_result(store, changed(store, {3: Fraction(2)}, **other), FIRST, NINE.replace(hour=10))
    assert refused.value.key == told
    assert head(store) == before


def test_nobody_changes_their_own_marks(store: Store) -> None:
    answered(store, "T-0003", "9XA2", lambda: NINE.replace(hour=10))
    wrong = record_result(store, replace(FAILED, form="9XA2"), FIRST, NINE.replace(hour=10))
    marks = replace(
        passed("9XA2"), replaces=wrong.seq, reason="unclear", by_hand={1: Fraction(2)}, decided_by=SECOND.id
    )
    with pytest.raises(EntryRefusedError) as refused:
        record_result(store, marks, FIRST, NINE.replace(hour=11))
    assert str(refused.value) == "nobody changes the marks of their own quiz\n    try: let another signer decide"


def test_a_part_of_a_hundredth_is_no_number_of_points(store: Store) -> None:
    with pytest.raises(ValueError, match="1/3 is no whole number of hundredths"):
        record_result(store, changed(store, {3: Fraction(1, 3)}), FIRST, NINE.replace(hour=10))
