"""The office's pages and papers: its front page, one file a person, and the training list.

A file is named by a code that follows from the person's id *and the company's secret*: it stands in no other folder and
in no exported record, so an address that gets about tells nothing. What an erased person left is taken away.
"""

import hmac
from base64 import b32encode
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Final

from courseware.content.words import say
from courseware.jobs.company import Company, name_of
from courseware.jobs.course import Course
from courseware.jobs.lists import Sources, counted_as_training, due_list, file_lists, training_list
from courseware.jobs.press import Press
from courseware.jobs.shelf import CERTIFICATES, FEEDBACK, PAPERS, QUIZZES, imprint_of, now_out
from courseware.publish import index
from courseware.publish.office_pages import PersonFile, TrainingList, person_page, training_page
from courseware.publish.office_table import Table, csv_bytes
from courseware.publish.output import OutputFolders, addresses, write_file
from courseware.publish.pdf import is_made_from
from courseware.records.identity import Person
from courseware.records.people import duplicates_of, enrollment_days, people
from courseware.records.registers import all_certificates, forms_of_erased
from courseware.records.signers import signers

FILES: Final = "people"
TRAINING: Final = "training-list"
CODE_LENGTH: Final = 12
"""Letters and digits [-] of a file's name: 60 bits."""


def write_office(course: Course, company: Company | None, folders: OutputFolders, press: Press, on: date) -> None:
    """Write every page behind the office's door; papers that no longer say what their page says are taken away.

    Parameters
    ----------
    course : Course
        Gives the titles.
    company : Company or None
        Whose records are shown; none if there is no company yet.
    folders : OutputFolders
        Where the pages go.
    press : Press
        Writes them.
    on : date
        The day of the lists.
    """
    if company is None:
        register = index.Register(say("jobs.no-company"), on.isoformat(), (), ())
        press.page(folders.office / "index.html", index.office_page(register, imprint_of(course)))
    else:
        _write(Sources(course, company.store, on), company, folders, press, papers=False)


def write_office_papers(course: Course, company: Company, folders: OutputFolders, press: Press, on: date) -> None:
    """Write the same pages and all their papers; the rest is as in :func:`write_office`."""
    _write(Sources(course, company.store, on), company, folders, press, papers=True)


def _write(at: Sources, company: Company, folders: OutputFolders, press: Press, *, papers: bool) -> None:
    folder = folders.office
    _drop_erased(company, folders)
    sheets = (*_files(company, at, folder), _training(company, at))
    for sheet in sheets:
        press.page(folder / f"{sheet.stem}.html", sheet.page)
        paper = folder / f"{sheet.stem}.pdf"
        if papers:
            press.paper(paper, sheet.paper)
        elif not is_made_from(paper, sheet.paper):
            paper.unlink(missing_ok=True)
    write_file(folder / f"{TRAINING}.csv", csv_bytes(training_list(at)))
    press.finish()  # the front page offers what is there
    _drop_others(folder / FILES, {Path(sheet.stem).name for sheet in sheets})
    press.page(folder / "index.html", index.office_page(_register(company, at, folder), imprint_of(at.course)))


def file_code(company: Company, person: Person) -> str:
    """Return what a person's file is called."""
    digest = hmac.digest(company.secret, f"courseware/person-file/1|{person.id}".encode(), "sha256")
    return b32encode(digest).decode("ascii")[:CODE_LENGTH].lower()


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A page and the HTML of its paper, by their address without its ending."""

    stem: str
    page: str
    paper: str


def _files(company: Company, at: Sources, folder: Path) -> Iterator[_Sheet]:
    since = enrollment_days(company.store)
    for person in people(company.store):
        certificates, *others = file_lists(at, person)
        file = PersonFile(
            company.name, at.on.isoformat(), person.name, person.id, person.email or "", since[person.id].isoformat(),
            tuple(_roles(company, person)), (_linked(certificates, folder), *others),
        )  # fmt: skip
        yield _sheet(f"{FILES}/{file_code(company, person)}", partial(person_page, file, imprint_of(at.course)), "../")


def _linked(certificates: Table, folder: Path) -> Table:
    """Return a person's certificates with the way to the sheet of each, where there is one."""
    code = certificates.columns.index("code")
    pages = (f"{CERTIFICATES}/{row[code]}.html" for row in certificates.rows)
    return replace(certificates, links=tuple(f"../{page}" if (folder / page).is_file() else "" for page in pages))


def _training(company: Company, at: Sources) -> _Sheet:
    table = training_list(at)
    date_column = table.columns.index("date")
    untrained = sum(not row[date_column] for row in table.rows)
    training = TrainingList(company.name, at.on.isoformat(), table, counted_as_training(at.course), untrained)
    return _sheet(TRAINING, partial(training_page, training, imprint_of(at.course)), "")


def _sheet(stem: str, make: Callable[..., str], root: str) -> _Sheet:
    return _Sheet(stem, make(root=root), make(paper=True))


def _drop_others(folder: Path, stems: Collection[str]) -> None:
    """Take the files away of people who are no more on record, or are another's duplicate."""
    for path in folder.glob("*"):
        if path.stem not in stems:
            path.unlink()


def _drop_erased(company: Company, folders: OutputFolders) -> None:
    """Take away every sheet that names somebody who was erased since."""
    erased = [one.code for one in all_certificates(company.store) if one.erased_on is not None]
    stems = [folders.office / CERTIFICATES / code for code in erased]
    places = (folders.trainee / QUIZZES, folders.trainer / PAPERS, folders.trainer / FEEDBACK)
    stems += [place / form for form in forms_of_erased(company.store) for place in places]
    for stem in stems:
        for ending in ("html", "pdf"):
            stem.with_name(f"{stem.name}.{ending}").unlink(missing_ok=True)


def _register(company: Company, at: Sources, folder: Path) -> index.Register:
    files = {person.id: f"{FILES}/{file_code(company, person)}" for person in people(company.store)}
    held = tuple(_held(company, at.on, folder, files))
    shown = [
        index.SheetEntry(person.name, person.id, *addresses(folder, files[person.id]))
        for person in sorted(people(company.store), key=lambda one: (one.name.casefold(), one.id))
    ]
    title = say("publish_office.training-link")
    training = index.SheetEntry(title, say("publish_office.training-link-say"), *addresses(folder, TRAINING))
    return index.Register(
        company.name, at.on.isoformat(), held, tuple(now_out(company, at.on)), due_list(at), at.within, tuple(shown),
        training, f"{TRAINING}.csv",
    )  # fmt: skip


def _held(company: Company, on: date, folder: Path, files: Mapping[str, str]) -> Iterator[index.Held]:
    for one in all_certificates(company.store):
        page, paper = addresses(folder, f"{CERTIFICATES}/{one.code}")
        file = f"{files[one.person_id]}.html" if one.person_id else ""
        yield index.Held(
            name_of(one.name), one.title, one.code, one.valid_from.isoformat(), one.valid_until.isoformat(),
            one.status(on), page, paper, file,
        )  # fmt: skip


def _roles(company: Company, person: Person) -> Iterator[str]:
    for signer in signers(company.store):
        if signer.person_id == person.id and signer.retired_at is None:
            yield say("publish_office.role-signer", on=signer.added_at[:10])
        elif signer.person_id == person.id:
            yield say("publish_office.role-was-signer", since=signer.added_at[:10], until=str(signer.retired_at)[:10])
    for one in duplicates_of(company.store, person.id):
        yield say("publish_office.role-duplicate", number=one.id, seq=one.seq, reason=one.reason)
