"""One person's file and the training list: what they say, by whose rules they are clean, and how they print."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Final

from playwright.sync_api import Browser

from courseware.publish.index import SheetEntry, office_page
from courseware.publish.office_pages import PersonFile, TrainingList, person_page, training_page
from courseware.publish.office_table import Table
from courseware.publish.output import write_file, write_page, write_style
from courseware.publish.pdf import html_to_pdf
from tests.publish.sample_quiz import IMPRINT
from tests.publish.sample_records import REGISTER
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints

CERTIFICATES: Final = Table(
    "certificates", ("program", "from", "until", "state", "code", "granted-by", "version", "entry"),
    (("Ignition service", "2026-11-25", "2028-11-25", "valid", "K7QM-2XPA-9D4T", "Q. Ames", "0.1", 11),),
    ("../certificates/K7QM-2XPA-9D4T.html",),
)  # fmt: skip
RESULTS: Final = Table(
    "results", ("quiz", "form", "date", "score", "cut", "outcome", "supervised-by", "state", "entry"),
    (("Quiz: ignition", "7K3Q-9XA2", "2026-11-24", Decimal("91.67"), Decimal(80), "passed", "Q. Ames", "stands", 9),)
    * 30,
)  # fmt: skip
FILE: Final = PersonFile(
    "Northfield Heater Service", "2026-11-25", "Dana <b>Whitlock</b>", "T-0002", "dana@example.com", "2026-10-01",
    ("Was also enrolled as T-0009; merged (entry 40): one card",),
    (CERTIFICATES, RESULTS, Table("evidence", (), ()), Table("forms", (), ())),
)  # fmt: skip
TRAINING: Final = TrainingList(
    "Northfield Heater Service", "2026-11-25",
    Table("training", ("name", "training", "shown-by", "date", "vouched-by"),
          (("Dana Whitlock", "Lockout", "quiz passed, supervised", "2026-11-24", "Q. Ames"),
           ("Lee Okafor", "none on record", "", "", ""))),
    ("Quiz: lockout", "Lockout and return to service"), 1,
)  # fmt: skip
REGISTER_OF_ALL: Final = replace(
    REGISTER, due=Table("due", ("name", "until"), (("Dana Whitlock", "2026-12-01"),)), due_days=60,
    people=(SheetEntry("Dana Whitlock", "T-0002", "people/a.html", "people/a.pdf"),),
    training=SheetEntry("Training list", "Who was trained.", "training-list.html", ""),
    training_csv="training-list.csv",
)  # fmt: skip


def test_machine_rules_and_markup(browser: Browser, tmp_path: Path) -> None:
    write_style(tmp_path)
    write_page(tmp_path / "person.html", person_page(FILE, IMPRINT))
    write_page(tmp_path / "training.html", training_page(TRAINING, IMPRINT))
    write_page(tmp_path / "office.html", office_page(REGISTER_OF_ALL, IMPRINT))
    check_markup(tmp_path).assert_clean(expected=3)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=3)


def test_the_papers_are_tagged_and_print_whole(tmp_path: Path) -> None:
    write_file(tmp_path / "person.pdf", html_to_pdf(person_page(FILE, IMPRINT, paper=True)))
    write_file(tmp_path / "training.pdf", html_to_pdf(training_page(TRAINING, IMPRINT, paper=True)))
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=2)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=2)


def test_a_file_shows_everything_and_what_there_is_none_of() -> None:
    text = person_page(FILE, IMPRINT, root="../")
    for told in ("T-0002", "dana@example.com", "2026-10-01", "merged (entry 40)", "K7QM-2XPA-9D4T", "91.67"):
        assert told in text
    assert "No evidence was entered." in text
    assert "No form is out." in text
    assert '<a href="../certificates/K7QM-2XPA-9D4T.html">Ignition service</a>' in text
    assert 'href="../index.html"' in text
    assert "Dana &lt;b&gt;Whitlock&lt;/b&gt;" in text
    assert "<a href" not in person_page(FILE, IMPRINT, paper=True)


def test_the_training_list_names_the_paragraph_and_leaves_the_certifying_to_a_person() -> None:
    text = training_page(TRAINING, IMPRINT, paper=True)
    # 29 CFR 1910.147(c)(7)(iv), from memory: each employee's name and dates of training; accomplished, kept up to date
    assert "29 CFR 1910.147(c)(7)(iv)" in text
    for told in ("Dana Whitlock", "2026-11-24", "Quiz: lockout; Lockout and return to service"):
        assert told in text
    assert "Without a date of training: 1" in text
    assert "certifies that the training listed above was accomplished and is being kept up to date." in text
    assert text.count('class="blank ') == 3
    assert "(c)(7)(iii)" in text


def test_on_the_screen_there_is_nothing_to_sign() -> None:
    text = training_page(TRAINING, IMPRINT)
    assert 'class="blank ' not in text
    assert "Print the PDF, and sign it." in text


def test_a_course_that_marks_no_such_training_is_told_how_to() -> None:
    text = training_page(replace(TRAINING, counted=(), untrained=0), IMPRINT)
    assert "The course marks no quiz and no procedure as such training." in text
    assert "Without a date of training" not in text


def test_the_front_page_leads_to_what_falls_due_and_to_every_file() -> None:
    text = office_page(REGISTER_OF_ALL, IMPRINT)
    assert "What falls due in the next 60 days" in text
    assert "29 CFR 1910.147(c)(6)" in text
    for address in ("people/a.html", "people/a.pdf", "training-list.html", "training-list.csv"):
        assert f'href="{address}"' in text
