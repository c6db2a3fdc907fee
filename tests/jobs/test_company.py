"""A company's folder: set up once, opened with its keys, its archive never led astray by a form's number."""

import stat
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.company import Beginning, Places, archived_form, archived_key, begin_company, open_company
from tests.jobs.office import NOW, SECRET, begun

BEGINNING = Beginning("Bench Heater Service", "Sal Signer")


def test_setting_up_makes_the_first_signer_and_private_files(tmp_path: Path) -> None:
    places = Places(begun(tmp_path / "bench"))
    with open_company(places) as company:
        assert (company.name, company.secret) == ("Bench Heater Service", SECRET)
    for file in (places.secret, places.signing_key):
        assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_keys_are_random_unless_given(tmp_path: Path) -> None:
    secrets = set()
    for name in ("one", "two"):
        (tmp_path / name / "question_bank").mkdir(parents=True)
        (tmp_path / name / "modules").mkdir()
        begin_company(tmp_path / name, BEGINNING, NOW)
        secrets.add(Places(tmp_path / name).secret.read_text(encoding="utf-8"))
    assert len(secrets) == 2


def test_a_folder_without_a_course_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        begin_company(tmp_path, BEGINNING, NOW)
    assert str(refused.value) == (
        f"the folder '{tmp_path}' holds no course; try: make one first: courseware new {tmp_path}"
    )


def test_setting_up_twice_is_refused(company: Path) -> None:
    with pytest.raises(Refusal) as refused:
        begin_company(company, BEGINNING, NOW)
    assert str(refused.value) == (
        f"the records '{company / 'office' / 'records.sqlite'}' have been begun before; "
        "try: go on with them, or name another folder"
    )


def test_a_company_that_was_never_set_up_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused, open_company(Places(tmp_path)):
        pass
    assert str(refused.value) == (
        f"the company in '{tmp_path}' has no records yet; "
        f"try: begin them: courseware records begin --company {tmp_path} --name NAME --signer NAME"
    )


@pytest.mark.parametrize("number", ["", "0000-0000", "../../office/secret", "..", "*"])
def test_a_strange_number_finds_no_form(company: Path, number: str) -> None:
    with open_company(Places(company)) as opened, pytest.raises(Refusal) as refused:
        archived_form(opened, number)
    assert str(refused.value) == (
        f"no form '{number}' is in the archive; try: look at the number at the top of the quiz; "
        "only forms that this company issued can be graded"
    )


def test_a_lost_key_is_told(company: Path) -> None:
    (sealed, *_) = sorted(Places(company).archive.glob("*.key.sealed"))
    form_id = sealed.name.partition(".")[0]
    sealed.unlink()
    with open_company(Places(company)) as opened, pytest.raises(Refusal) as refused:
        archived_key(opened, form_id)
    assert str(refused.value) == (
        f"the sealed key of form '{form_id}' is missing from the archive; try: put office/forms back from your backup"
    )
