"""The proctor sheet of every sitting: written when its forms are issued, and again when some of them are voided."""

from collections.abc import Iterator
from pathlib import Path
from typing import Final

from courseware.content.words import say
from courseware.jobs.company import Company, archived_form, name_of
from courseware.jobs.press import Press
from courseware.publish.index import SheetEntry
from courseware.publish.output import addresses
from courseware.publish.pages import Imprint
from courseware.publish.proctor import Seat, Sitting, proctor_page, proctor_paper
from courseware.records.issues import Issue, issue_of, issues

SITTINGS: Final = "sittings"


def write_sitting(company: Company, imprint: Imprint, press: Press, form_id: str) -> None:
    """Write the proctor sheet of the forms that were issued together with one of them.

    Parameters
    ----------
    company : Company
        Whose records tell who sits.
    imprint : Imprint
        The course.
    press : Press
        Writes it.
    form_id : str
        One of the forms.
    """
    issue = issue_of(company.store, form_id)
    sitting, stem = _sitting(company, issue), company.places.build.trainer / SITTINGS / issue[0].form
    press.page(stem.with_suffix(".html"), proctor_page(sitting, imprint, root="../"))
    press.paper(stem.with_suffix(".pdf"), proctor_paper(sitting, imprint))


def sittings_open(company: Company, folder: Path) -> Iterator[SheetEntry]:
    """Yield the proctor sheets of which a form is still out, as the page in ``folder`` lists them."""
    for issue in issues(company.store):
        out = sum(one.out for one in issue)
        if out:
            sitting, stem = _sitting(company, issue), f"{SITTINGS}/{issue[0].form}"
            about = say("publish_proctor.sheet-about", issued=sitting.issued, out=out, all=len(issue))
            yield SheetEntry(sitting.title, about, *addresses(folder, stem))


def _sitting(company: Company, issue: Issue) -> Sitting:
    form = archived_form(company, issue[0].form)
    seats = tuple(
        Seat(name_of(one.name), one.form, (one.answered_at or "")[:10], void=bool(one.voided_at)) for one in issue
    )
    minutes = sum(item.minutes for item in form.items)
    return Sitting(form.title, issue[0].issued_at[:10], seats, len(form.items), minutes)
