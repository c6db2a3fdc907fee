"""What a certificate rests on, told entry by entry; also of an erased person, and of what was taken back since."""

from dataclasses import replace
from datetime import timedelta

import pytest

from courseware.records.basis import basis_lines, basis_of, resting_on
from courseware.records.evidence import withdraw_evidence
from courseware.records.registers import all_certificates
from courseware.records.results import record_result
from courseware.records.signoffs import withdraw_sign_off
from courseware.records.store import Store
from tests.records import second_path
from tests.records.story import FIRST, NINE, passed

LATER = NINE + timedelta(hours=1)


def lines(store: Store, seq: int) -> list[str]:
    (certificate,) = (one for one in all_certificates(store) if one.seq == seq)
    return list(basis_lines(store, certificate))


def test_a_certificate_on_a_result_and_a_sign_off(told: Store) -> None:
    assert lines(told, 25) == [
        "granted by Ann Reyes on 2026-11-25 (event 25)",
        f"on course version 0.1, SHA-256 of its content {'5e' * 32}",
        "for: Finds what is wrong with the ignition from readings",
        ("resting on the quiz 'ignition', form 7K3Q: 90 %, 80 % needed, 2026-11-25, watched by Bo Lindqvist (event 9)"),
        (
            "resting on the procedure 'ignition-test', carried out on siphon, 2026-11-25, watched by Ann Reyes "
            "(event 24)"
        ),
    ]


def test_a_certificate_on_evidence(told: Store) -> None:
    card = "card 4471 of a trade school, 2019; seen 2026-11-25 by Ann Reyes"
    assert lines(told, 35)[3:] == [
        f"resting on evidence in the place of the quiz 'ignition': {card} (event 31)",
        f"resting on evidence in the place of the procedure 'ignition-test': {card} (event 34)",
    ]


def test_of_an_erased_person_it_is_told_without_a_name(told: Store) -> None:
    (line,) = lines(told, 19)[3:]
    assert line == (
        "resting on the quiz 'ignition', form M4C7: 90 %, 80 % needed, 2026-11-25, watched by Ann Reyes (event 18)"
    )
    assert "Kim" not in " ".join(lines(told, 19))


def test_what_was_taken_back_or_replaced_since_is_told(told: Store) -> None:
    withdraw_sign_off(told, 24, "the wrong heater", FIRST, LATER)
    withdraw_evidence(told, 31, "another's card", FIRST, LATER)
    marks = replace(passed("7K3Q"), replaces=9, reason="typed in one line too low")
    again = record_result(told, marks, FIRST, LATER)
    assert lines(told, 25)[3].endswith(f"; that result was replaced since by event {again.seq}")
    assert lines(told, 25)[-1] == "event 24 was taken back on 2026-11-25: the wrong heater"
    assert "event 31 was taken back on 2026-11-25: another's card" in lines(told, 35)


@pytest.mark.parametrize(("seq", "codes"), [(9, [11, 25]), (24, [25]), (31, [35]), (34, [35]), (18, []), (8, [])])
def test_what_rests_on_an_entry_and_still_stands(told: Store, seq: int, codes: list[int]) -> None:
    assert [one.seq for one in resting_on(told, seq)] == codes


def test_the_basis_is_what_the_events_say(told: Store) -> None:
    granted = [event for event in second_path.events(told.path) if event["kind"] == "certificate-granted"]
    assert len(granted) == 4
    for certificate, event in zip(all_certificates(told), granted, strict=True):
        basis = basis_of(told, certificate)
        assert [one.seq for one in basis.results] == event["results"]
        assert [one.seq for one in basis.signoffs] == event.get("signoffs", [])
        assert {name: one.seq for name, one in basis.quiz_evidence} == event.get("quiz_evidence", {})
        assert {name: one.seq for name, one in basis.signoff_evidence} == event.get("signoff_evidence", {})
