"""The front pages list what there is, say where there is nothing, and every link leads somewhere."""

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from courseware.content.words import say
from courseware.publish.index import STATES, Register, front_page, office_page, trainee_page, trainer_page
from courseware.publish.output import OutputFolders, write_page, write_style
from courseware.records.certificates import CODE_STATUSES
from tests.publish.sample_quiz import IMPRINT
from tests.publish.sample_records import LESSONS, QUIZZES, REGISTER, SHEETS
from tests.web.markup import check_links, check_markup
from tests.web.pages import check_pages

LISTED = (
    "trainee/lessons/ignition-test.html", "trainee/lessons/ignition-test.pdf", "trainee/quizzes/k52r.html",
    "trainee/quizzes/k52r.pdf", "trainer/keys/k52r.html", "trainer/keys/k52r.pdf", "office/c/1.html", "office/c/1.pdf",
)  # fmt: skip


def build(folder: Path) -> None:
    """Lay out the front pages as the jobs do."""
    folders = OutputFolders.under(folder)
    for one in folders.each():
        write_style(one)
    write_page(folder / "index.html", front_page(("trainee", "trainer", "office"), IMPRINT))
    write_page(folders.trainee / "index.html", trainee_page(LESSONS, QUIZZES, IMPRINT))
    write_page(folders.trainer / "index.html", trainer_page(SHEETS, REGISTER.out, SHEETS, IMPRINT))
    write_page(folders.office / "index.html", office_page(REGISTER, IMPRINT))


def test_machine_rules_and_markup(browser: Browser, tmp_path: Path) -> None:
    build(tmp_path)
    check_markup(tmp_path).assert_clean(expected=4)
    check_pages(browser, tmp_path.rglob("*.html")).assert_clean(expected=4)


def test_every_link_leads_to_what_is_listed(tmp_path: Path) -> None:
    build(tmp_path)
    before = check_links(tmp_path).faults
    assert len(before) == len(LISTED) + 2, "the sample trainer page lists its one sheet twice"
    for name in LISTED:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("<!doctype html>", encoding="utf-8")
    assert check_links(tmp_path).faults == ()


@pytest.mark.parametrize("folder", ["trainee", "trainer", "office"])
def test_each_folder_can_travel_alone(tmp_path: Path, folder: str) -> None:
    build(tmp_path)
    assert not [fault for fault in check_links(tmp_path / folder).faults if "../" in fault or "course.css" in fault]


def test_where_there_is_nothing_the_pages_say_so(tmp_path: Path) -> None:
    pages = {
        "front": (front_page((), IMPRINT), ("front-none",)),
        "trainee": (trainee_page((), (), IMPRINT), ("trainee-no-lessons", "trainee-no-quizzes")),
        "trainer": (trainer_page((), (), (), IMPRINT), ("trainer-no-sheets", "office-no-out", "trainer-no-feedback")),
        "office": (
            office_page(Register("Northfield", "2026-11-25", (), ()), IMPRINT),
            ("office-no-held", "office-no-out"),
        ),
    }
    write_style(tmp_path)
    for name, (text, keys) in pages.items():
        assert all(say(f"publish_pages.{key}") in text for key in keys)
        write_page(tmp_path / f"{name}.html", text)
    check_markup(tmp_path).assert_clean(expected=4)


def test_the_front_page_has_a_door_for_each_folder_that_was_built() -> None:
    text = front_page(("trainee", "office"), IMPRINT)
    assert 'href="trainee/index.html"' in text
    assert 'href="office/index.html"' in text
    assert "trainer/index.html" not in text


def test_the_office_sees_who_holds_what_until_when_and_what_is_out() -> None:
    text = office_page(REGISTER, IMPRINT)
    for held in REGISTER.held:
        assert all(value in text for value in (held.holder, held.program, held.code, held.expires))
    assert ">valid<" in text
    assert ">expired<" in text
    assert "7K3Q-9XA2" in text
    assert "2026-11-24, 1 day" in text


def test_the_trainer_sees_what_has_not_come_back_and_for_how_long() -> None:
    text = trainer_page((), (replace(REGISTER.out[0], days=40),), (), IMPRINT)
    assert all(value in text for value in ("7K3Q-9XA2", "Sam Ortiz", "2026-11-24, 40 days"))


@pytest.mark.parametrize("state", STATES)
def test_every_state_of_a_certificate_has_its_word(state: str) -> None:
    text = office_page(replace(REGISTER, held=(replace(REGISTER.held[0], state=state),)), IMPRINT)
    assert f"<td>{say(f'publish_pages.state-{state}')}</td>" in text


def test_the_states_are_those_of_the_records() -> None:
    assert set(STATES) == set(CODE_STATUSES) - {"unknown", "mistyped"}, "an unknown code is on no register"


def test_the_same_register_gives_the_same_bytes() -> None:
    assert office_page(REGISTER, IMPRINT) == office_page(REGISTER, IMPRINT)
