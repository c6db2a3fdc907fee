"""The office's papers: one person's file, and the training list that an inspector asks for.

Both are lists with a head; :mod:`courseware.publish.office_table` says what a list is.
"""

from dataclasses import dataclass

from courseware.content.words import say
from courseware.publish.assets import static_text
from courseware.publish.office_table import Table
from courseware.publish.pages import Imprint, render


@dataclass(frozen=True, slots=True)
class PersonFile:
    """Everything on record of one person.

    Attributes
    ----------
    company, on : str
        Name of the company, and the day of the file, ISO 8601.
    name, number, email : str
        As the office knows the person; the e-mail may be empty.
    enrolled : str
        The day of enrollment, ISO 8601.
    roles : tuple of str
        What else there is to say of the person: a qualified signer, enrolled twice under another number.
    tables : tuple of Table
        Certificates, results, sign-offs, evidence, forms out.
    """

    company: str
    on: str
    name: str
    number: str
    email: str
    enrolled: str
    roles: tuple[str, ...]
    tables: tuple[Table, ...]


@dataclass(frozen=True, slots=True)
class TrainingList:
    """Who was trained in the control of hazardous energy, and when: 29 CFR 1910.147(c)(7)(iv).

    Attributes
    ----------
    company, on : str
        Name of the company, and the day of the list, ISO 8601.
    table : Table
        Each employee, with the dates.
    counted : tuple of str
        What the course counts as such training, by its titles; none if it marks nothing.
    untrained : int
        How many of the people on it [-] have no date.
    """

    company: str
    on: str
    table: Table
    counted: tuple[str, ...]
    untrained: int


def person_page(file: PersonFile, imprint: Imprint, *, root: str = "", paper: bool = False) -> str:
    """Return one person's file as a web page, or as HTML for the PDF maker (``paper``)."""
    title = say("publish_office.file-title", name=file.name)
    return _page("office_person", title, imprint, file=file, root=root, paper=paper)


def training_page(training: TrainingList, imprint: Imprint, *, root: str = "", paper: bool = False) -> str:
    """Return the training list as a web page, or as HTML for the PDF maker (``paper``)."""
    title = say("publish_office.training-title")
    return _page("office_training", title, imprint, training=training, root=root, paper=paper)


def _page(name: str, title: str, imprint: Imprint, *, root: str, paper: bool, **values: object) -> str:
    style = static_text("office_paper.css" if paper else "front.css")
    return render(f"{name}.html.j2", imprint, title=title, root=root, paper=paper, style=style, **values)
