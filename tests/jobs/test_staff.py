"""The office and its people: evidence, duplicates, signers who leave, and what is refused."""

from dataclasses import replace
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.certify import certify
from courseware.jobs.desk import Desk
from courseware.jobs.signoff import Seen, sign_off_work
from courseware.jobs.staff import Brought, enter_brought, retire
from courseware.jobs.withdraw import take_back_evidence, take_back_sign_off, withdraw_certificate
from courseware.records.evidence import evidence_of
from courseware.records.keys import signing_key_from_seed
from courseware.records.signers import add_signer, signers
from courseware.records.signoffs import signoffs_of
from tests.jobs.office import NOW, at_desk

PROGRAM = "ignition-service"


def open_to_evidence(desk: Desk) -> Desk:
    """Return the desk of a company whose program takes evidence in the place of everything."""
    program = desk.course.programs[PROGRAM]
    taking = replace(program, quizzes_by_evidence=program.blueprints, signoffs_by_evidence=program.signoffs)
    return replace(desk, course=replace(desk.course, programs={PROGRAM: taking}))


def refusal(desk: Desk, person: str, brought: Brought) -> str:
    with pytest.raises(Refusal) as raised:
        enter_brought(desk, person, brought)
    return str(raised.value)


def test_experienced_staff_are_certified_on_evidence_where_the_program_says_so(company: Path) -> None:
    with at_desk(company) as shut:
        desk = open_to_evidence(shut)
        done = enter_brought(desk, "T-0002", Brought("service record of 12 years", program=PROGRAM))
        assert (done.title, [one.id for one in done.takers]) == (desk.course.programs[PROGRAM].title, [PROGRAM])
        field = enter_brought(desk, "T-0002", Brought("card 4471", procedure="ignition-test", by="T-0001"))
        assert [one.id for one in field.takers] == [PROGRAM]
        granted = certify(desk, "T-0002", PROGRAM)
        page = granted.page.read_text(encoding="utf-8")
        assert "card 4471; seen 2026-11-25 by Sal Signer" in page
        assert "meets what is asked in the program" in page
        assert "has passed all quizzes" not in page
        assert set(granted.certificate.quiz_evidence) == set(desk.course.programs[PROGRAM].blueprints)
        taken_back = take_back_evidence(desk, field.seq, "another's card")
        assert [one.code for one in taken_back.resting] == [granted.certificate.code]
        assert withdraw_certificate(desk, granted.certificate.code, "rests on a wrong card").withdrawn_on == NOW.date()
        assert take_back_evidence(desk, done.seq, "the same").resting == ()


def test_by_default_evidence_stands_in_the_file_alone(company: Path) -> None:
    with at_desk(company) as desk:
        done = enter_brought(desk, "T-0002", Brought("service record", program=PROGRAM))
        assert done.takers == ()
        assert [one.seq for one in evidence_of(desk.company.store, "T-0002")] == [done.seq]
        with pytest.raises(Refusal, match="takes none in the place of the quiz"):
            certify(desk, "T-0002", PROGRAM)
        told = [path.read_text(encoding="utf-8") for path in (company / "build" / "office" / "people").glob("*.html")]
        assert sum("service record" in text for text in told) == 1


def test_what_evidence_is_refused(company: Path) -> None:
    with at_desk(company) as desk:
        both = "evidence is about one program or one procedure; try: name one of the two: "
        both += "--program ignition-service, or --procedure lockout"
        assert refusal(desk, "T-0002", Brought("card")) == both
        assert refusal(desk, "T-0002", Brought("card", program=PROGRAM, procedure="lockout")) == both
        assert refusal(desk, "T-0002", Brought("card", procedure="lokout")) == (
            "the course has no procedure 'lokout'; try: did you mean 'lockout'?"
        )
        assert refusal(desk, "T-0002", Brought("card", program="ignition-servise")) == (
            "there is no certificate program 'ignition-servise'; try: did you mean 'ignition-service'?"
        )
        assert refusal(desk, "T-0002", Brought("card", procedure="lockout", by="T-0003")) == (
            "'T-0003' is no qualified signer; try: name one of: T-0001"
        )


def test_a_signer_who_leaves_signs_no_more(company: Path) -> None:
    with at_desk(company) as desk:
        store, key = desk.company.store, signing_key_from_seed(b"2" * 32)
        with pytest.raises(Refusal, match="this is the last active signer"):
            retire(desk, "T-0001", "left")
        add_signer(store, "T-0003", key.public, desk.company.key, NOW)
        assert retire(desk, " t-0003 ", "left the company").name == "Bo Vise"
        assert [one.retired_at is None for one in signers(store)] == [True, False]
        with pytest.raises(Refusal, match="'T-0003' is no qualified signer"):
            retire(desk, "T-0003", "again")


def test_a_sign_off_with_its_unit_is_taken_back(company: Path) -> None:
    with at_desk(company) as desk:
        sign_off_work(desk, "T-0002", Seen("lockout", "bay-siphon", serial="no. 4471, south bay"))
        (one,) = signoffs_of(desk.company.store, "T-0002")
        assert one.work.serial == "no. 4471, south bay"
        assert take_back_sign_off(desk, one.seq, "the wrong unit").resting == ()
        told = [path.read_text(encoding="utf-8") for path in (company / "build" / "office" / "people").glob("*.html")]
        (file,) = [text for text in told if "no. 4471, south bay" in text]
        assert "taken back on 2026-11-25: the wrong unit" in file
