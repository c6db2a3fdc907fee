"""Signing off: under the names that the course gives, on the day and by the signer told, and on the certificate."""

from datetime import date
from pathlib import Path

from courseware.jobs.signoff import Seen, SignedOff, sign_off_work
from courseware.records.signoffs import FieldWork, signoffs_of
from tests.jobs.office import at_desk


def test_the_entry_says_what_was_done_when_and_on_which_course(company: Path) -> None:
    with at_desk(company) as desk:
        seen = Seen("lockout", "bay-metered", date(2026, 11, 20), "t-0001", "no help needed")
        done = sign_off_work(desk, "T-0002", seen)
        (entry,) = signoffs_of(desk.company.store, "T-0002")
        course, key = desk.course, desk.company.key.id
    assert done == SignedOff(done.person, "Lockout and return to service", "Bay heater 235, metered burner",
                             date(2026, 11, 20))  # fmt: skip
    assert done.person.name == "Ada Bench"
    assert entry.work == FieldWork("lockout", "bay-metered", date(2026, 11, 20), key, course.version, course.hash,
                                   "no help needed")  # fmt: skip
    assert entry.signer_name == "Sal Signer"


def test_by_default_it_is_today_and_whose_key_is_at_the_desk(company: Path) -> None:
    with at_desk(company) as desk:
        sign_off_work(desk, "T-0002", Seen("lockout", "bay-siphon"))
        (entry,) = signoffs_of(desk.company.store, "T-0002")
        assert (entry.work.on, entry.work.watched_by) == (desk.now.date(), desk.company.key.id)
