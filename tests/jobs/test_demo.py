"""The whole job once: who passes, who passes the second time, who does not, and that it repeats byte for byte."""

import hashlib
import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.certify import Certified
from courseware.jobs.company import Company, Places, archived_form, archived_key, open_company
from courseware.jobs.demo import KNOWS, STILL_OUT, run_demo
from courseware.jobs.grade import Graded
from courseware.jobs.verify import certificate_status, verify_records
from courseware.publish.output import OutputFolders
from courseware.records.evidence import evidence_of
from courseware.records.people import duplicates_of, people
from courseware.records.registers import all_certificates, forms_out, results_of
from courseware.records.signoffs import signoffs_of
from tests.demo import NOW, Demonstration, demonstrate, made

pytestmark = pytest.mark.xdist_group("demonstration")


@pytest.fixture
def company(demonstration: Demonstration) -> Iterator[Company]:
    with open_company(Places(demonstration.out / "company")) as opened:
        yield opened


def graded(demonstration: Demonstration) -> list[Graded]:
    return [one for one in demonstration.shown.outcomes if isinstance(one, Graded)]


def test_a_damaged_response_is_refused_and_graded_once_it_came_whole(demonstration: Demonstration) -> None:
    damaged = [str(one) for one in demonstration.shown.outcomes if isinstance(one, Refusal)]
    assert damaged
    assert all("the response file is damaged" in one for one in damaged)
    forms = [one.result.form for one in graded(demonstration)]
    assert all(any(form in one for form in forms) for one in damaged)


def test_everybody_of_the_class_sat_both_quizzes_and_those_who_failed_sat_again(
    demonstration: Demonstration, company: Company
) -> None:
    sat: Counter[tuple[str, str]] = Counter()
    first: dict[tuple[str, str], bool] = {}
    for one in graded(demonstration):
        sitting = one.person.id, archived_form(company, one.result.form).blueprint
        sat[sitting] += 1
        first.setdefault(sitting, one.result.passed)
    assert len(sat) == 2 * len(KNOWS)
    assert all(sat[key] == (1 if passed else 2) for key, passed in first.items())
    assert {1, 2} == set(sat.values())


def test_who_breaks_a_rule_of_safe_work_does_not_pass(demonstration: Demonstration) -> None:
    unsafe = [one.result for one in graded(demonstration) if one.result.gate_broken]
    assert unsafe
    assert not any(result.passed for result in unsafe)


def test_who_passed_both_is_certified_and_the_others_are_told_why(demonstration: Demonstration) -> None:
    passed = Counter(one.person.id for one in graded(demonstration) if one.result.passed)
    granted = [one for one in demonstration.shown.certified if isinstance(one, Certified)]
    refused = [str(one) for one in demonstration.shown.certified if isinstance(one, Refusal)]
    assert {one.certificate.person_id for one in granted} == {person for person, times in passed.items() if times == 2}
    assert all(one.page.is_file() for one in granted)
    assert 0 < len(refused) == len(KNOWS) - len(granted)
    assert all("is not passed" in one for one in refused)


def test_the_records_hold_and_answer_for_every_certificate(demonstration: Demonstration, company: Company) -> None:
    folder = demonstration.out / "company"
    assert demonstration.shown.verification.ok
    assert verify_records(folder, None).ok
    held = all_certificates(company.store)
    assert len(held) == 1 + sum(isinstance(one, Certified) for one in demonstration.shown.certified)
    assert {certificate_status(folder, one.code, NOW.date())[0].status for one in held} == {"valid"}


def test_the_old_hand_is_due_soon_and_every_result_was_supervised(company: Company) -> None:
    old, *_ = all_certificates(company.store)
    assert 0 < (old.valid_until - NOW.date()).days < 60
    assert old.person_id is not None
    assert all(result.supervisor_name for result in results_of(company.store, old.person_id))


def test_what_comes_up_in_an_office_is_on_record(demonstration: Demonstration, company: Company) -> None:
    store, everybody = company.store, people(company.store)
    assert len(everybody) == len(["signer", "old hand", "hired with a card"]) + len(KNOWS)
    assert [one.blueprint for one in forms_out(store)] == ["combustion"] * STILL_OUT
    assert [one.seen.evidence for person in everybody for one in evidence_of(store, person.id)] == [
        "lockout card of an earlier employer, number 4471"
    ]
    assert sum(len(duplicates_of(store, person.id)) for person in everybody) == 1
    taken_back = [one.withdrawn for person in everybody for one in signoffs_of(store, person.id) if one.withdrawn]
    assert [one.reason for one in taken_back] == ["entered for the wrong person"]
    assert verify_records(demonstration.out / "company", None).ok


def test_it_tells_each_file_and_each_step(demonstration: Demonstration) -> None:
    files = {name for name in demonstration.told if Path(name).suffix in {".html", ".pdf"}}
    assert {str(demonstration.out / name) for name in made(demonstration.out, ".html", ".pdf")} <= files
    steps = [line for line in demonstration.told if line not in files]
    assert steps[:3] == [
        "making an invented company",
        "certifying somebody three years ago",
        "Quiz: lockout: issuing it to 12 invented people",
    ]
    assert steps[-2:] == ["entering an old card, a person enrolled twice, a sign-off taken back", "building the course"]


def test_two_demonstrations_make_the_same_bytes_and_the_second_replaces_the_first(
    demonstration: Demonstration, tmp_path: Path
) -> None:
    out = tmp_path / "elsewhere" / "build"
    shutil.copytree(demonstration.out, out)
    (out / "trainee" / "stale.html").write_text("", encoding="utf-8")
    again = demonstrate(out)
    assert digests(again.out) == digests(demonstration.out)


def digests(out: Path) -> dict[str, str]:
    """Return the digest of everything that was published, and of every archived form, key and response."""
    forms = sorted((out / "company" / "office" / "forms").iterdir())
    names = [*made(out, ".html", ".pdf", ".css", ".ttf"), *(f"company/office/forms/{path.name}" for path in forms)]
    assert len(names) > len(forms) > 0
    return {name: hashlib.sha256((out / name).read_bytes()).hexdigest() for name in names}


def test_nothing_that_a_trainee_gets_holds_what_only_the_key_holds(
    demonstration: Demonstration, company: Company
) -> None:
    """The explanations and the reasons of the key stand in no file for trainees, nor do the company's own files."""
    quizzes = sorted((OutputFolders.under(demonstration.out).trainee / "quizzes").glob("*.html"))
    assert quizzes
    secrets = [company.secret.hex().encode(), company.places.signing_key.read_bytes()]
    for path in quizzes:
        page = path.read_bytes()
        for entry in archived_key(company, path.stem).entries:
            assert entry.because.encode() not in page
            assert not any(text.encode() in page for text in entry.feedback.values())
            assert not any(belief.instead.encode() in page for belief in entry.misconceptions.values())
            assert entry.template.encode() not in page
        assert not any(secret in page for secret in secrets)


def test_a_company_that_no_demonstration_made_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "company").mkdir()
    with pytest.raises(Refusal) as refused:
        run_demo(tmp_path, NOW, print)
    assert str(refused.value) == (
        f"the folder '{tmp_path / 'company'}' was not made by a demonstration; "
        "try: name another folder: courseware demo my-demo"
    )
