"""The whole job once: who passes, who does not, what is refused, and that it repeats byte for byte."""

import hashlib
import shutil
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.certify import Certified
from courseware.jobs.company import Places, archived_key, open_company
from courseware.jobs.demo import run_demo
from courseware.jobs.grade import Graded
from courseware.jobs.verify import certificate_status, verify_records
from courseware.records.registers import all_certificates, forms_out, results_of
from tests.demo import NOW, Demonstration, demonstrate, made

pytestmark = pytest.mark.xdist_group("demonstration")


def form_ids(demonstration: Demonstration) -> list[str]:
    return [Path(name).stem for name in made(demonstration.out, ".html") if name.startswith("trainee/quizzes/")]


def test_the_right_answers_pass_the_unsafe_ones_fail_and_the_damaged_ones_are_refused(
    demonstration: Demonstration,
) -> None:
    damaged, right, unsafe = sorted(demonstration.shown.outcomes, key=lambda one: isinstance(one, Graded))
    assert isinstance(damaged, Refusal)
    assert "the response file is damaged" in str(damaged)
    assert isinstance(right, Graded)
    assert (right.result.percent, right.result.passed, right.result.gate_broken) == (100.0, True, ())
    assert isinstance(unsafe, Graded)
    assert not unsafe.result.passed
    assert unsafe.result.percent >= unsafe.result.needed, "it must be the gate that fails it, not the score"
    assert unsafe.result.gate_broken


def test_only_the_first_is_certified_and_the_others_are_told_why(demonstration: Demonstration) -> None:
    granted, gate, nothing = demonstration.shown.certified
    assert isinstance(granted, Certified)
    assert granted.page.is_file()
    assert isinstance(gate, Refusal)
    assert "broke a safety rule" in str(gate)
    assert isinstance(nothing, Refusal)
    assert "there is no result for the quiz 'ignition'" in str(nothing)


def test_the_records_hold_and_answer_for_the_certificate(demonstration: Demonstration) -> None:
    folder = demonstration.out / "company"
    assert demonstration.shown.verification.ok
    assert verify_records(folder, None).ok
    (granted,) = [one for one in demonstration.shown.certified if isinstance(one, Certified)]
    assert certificate_status(folder, granted.certificate.code, NOW.date()).status == "valid"


def test_the_records_say_who_supervised(demonstration: Demonstration) -> None:
    with open_company(Places(demonstration.out / "company")) as company:
        (held,) = all_certificates(company.store)
        assert held.person_id is not None
        (result,) = results_of(company.store, held.person_id)
        assert result.supervisor_name
        assert len(forms_out(company.store)) == 1


def test_it_tells_each_step_and_each_file(demonstration: Demonstration) -> None:
    files = {name for name in demonstration.told if Path(name).suffix in {".html", ".pdf"}}
    assert {str(demonstration.out / name) for name in made(demonstration.out, ".html", ".pdf")} == files
    assert [line for line in demonstration.told if line not in files] == [
        "making an invented company",
        "building the course",
        "issuing a quiz to three invented people",
        "answering from the trainees' pages alone",
        "grading what was handed in",
        "signing off what the first of them did on a heater",
        "certifying whom the records allow",
    ]


def test_two_demonstrations_make_the_same_bytes(demonstration: Demonstration, tmp_path: Path) -> None:
    again = demonstrate(tmp_path / "elsewhere" / "build")
    assert digests(again.out) == digests(demonstration.out)


def digests(out: Path) -> dict[str, str]:
    """Return the digest of everything that was published, and of every archived form, key and response."""
    names = [*made(out, ".html", ".pdf", ".css", ".ttf"), *(f"company/office/forms/{path.name}" for path in forms(out))]
    assert len(names) > len(forms(out)) > 0
    return {name: hashlib.sha256((out / name).read_bytes()).hexdigest() for name in names}


def forms(out: Path) -> list[Path]:
    return sorted((out / "company" / "office" / "forms").iterdir())


def test_nothing_that_a_trainee_gets_holds_what_only_the_key_holds(demonstration: Demonstration) -> None:
    """The explanations and the reasons of the key stand in no file for trainees, nor do the company's own files."""
    with open_company(Places(demonstration.out / "company")) as company:
        keys = [archived_key(company, form_id) for form_id in form_ids(demonstration)]
        secrets = [company.secret.hex().encode(), company.places.signing_key.read_bytes()]
    quizzes = [path.read_bytes() for path in (demonstration.out / "trainee" / "quizzes").glob("*.html")]
    assert len(keys) == len(quizzes) == 3
    for page in quizzes:
        for entry in (entry for key in keys for entry in key.entries):
            assert entry.because.encode() not in page
            assert not any(text.encode() in page for text in entry.feedback.values())
            assert entry.template.encode() not in page
        assert not any(secret in page for secret in secrets)


def test_a_second_demonstration_replaces_the_first(demonstration: Demonstration, tmp_path: Path) -> None:
    out = tmp_path / "build"
    shutil.copytree(demonstration.out, out)
    (out / "trainee" / "stale.html").write_text("", encoding="utf-8")
    demonstrate(out)
    assert digests(out) == digests(demonstration.out)


def test_a_company_that_no_demonstration_made_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "company").mkdir()
    with pytest.raises(Refusal) as refused:
        run_demo(tmp_path, NOW, print)
    assert str(refused.value) == (
        f"the folder '{tmp_path / 'company'}' was not made by a demonstration; "
        "try: name another folder: courseware demo my-demo"
    )
