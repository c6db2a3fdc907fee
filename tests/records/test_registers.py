from datetime import date

import pytest

from courseware.records.errors import EntryRefusedError
from courseware.records.registers import FormOut, all_certificates, certificates_of, forms_out, holders, results_of
from courseware.records.store import Store
from tests.records.story import TODAY


def test_the_forms_that_are_out(told: Store) -> None:
    assert forms_out(told) == (FormOut("T9PQ", "combustion", "T-0003", "Jo Okafør-Lund", "2026-11-25T14:15:00Z"),)


def test_every_certificate_in_order(told: Store) -> None:
    assert [(one.seq, one.name, one.status(TODAY), one.signer_name) for one in all_certificates(told)] == [
        (11, "Jo Okafør-Lund", "valid", "Ann Reyes"),
        (19, None, "erased", "Bo Lindqvist"),
        (25, "Jo Okafør-Lund", "valid", "Ann Reyes"),
        (35, "Ike Ferro", "valid", "Ann Reyes"),
    ]


def test_the_holders_on_a_day(told: Store) -> None:
    assert [one.valid_until for one in holders(told, TODAY)] == [date(2028, 11, 25)] * 3
    assert sorted(str(one.person_id) for one in holders(told, TODAY)) == ["T-0003", "T-0003", "T-0005"]
    assert holders(told, date(2028, 11, 26)) == ()
    assert [one.person_id for one in holders(told, TODAY, "ignition-service")] == ["T-0003"]


def test_the_results_of_a_person(told: Store) -> None:
    assert [(one.seq, one.passed, one.replaced_by, one.supervisor_name) for one in results_of(told, "T-0003")] == [
        (8, False, 9, "Bo Lindqvist"),
        (9, True, None, "Bo Lindqvist"),
    ]
    assert results_of(told, "T-0001") == ()


@pytest.mark.parametrize("read", [results_of, certificates_of])
def test_nobody_of_that_id(told: Store, read: object) -> None:
    assert callable(read)
    with pytest.raises(EntryRefusedError, match="nobody with the id 'T-0004' is enrolled"):
        read(told, "T-0004")
