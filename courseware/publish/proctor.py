"""The proctor sheet: who sits, with which form, and what the person who watches does when something goes wrong."""

from dataclasses import dataclass
from typing import Final

from courseware.content.words import say
from courseware.publish.assets import static_text
from courseware.publish.pages import Imprint, render

#: What the sheet tells, in its order: each heading with its rules.
_RULES: Final = (
    ("before", ("who", "table", "device", "say")),
    ("during", ("network", "phone", "leak", "harm")),
    ("after", ("count",)),
)


@dataclass(frozen=True, slots=True)
class Seat:
    """One trainee at the sitting.

    Attributes
    ----------
    trainee, form : str
        Who, and the number of their form.
    answered : str
        When the answers came in, ISO 8601; empty if they have not.
    void : bool
        Whether the form counts no more.
    """

    trainee: str
    form: str
    answered: str = ""
    void: bool = False


@dataclass(frozen=True, slots=True)
class Sitting:
    """Forms that were issued together.

    Attributes
    ----------
    title : str
        What the quiz is called.
    issued : str
        Date of issue, ISO 8601.
    seats : tuple of Seat
        In the order of the list; at least one.
    questions, minutes : int
        Number of questions of a form [-]; time to allow [min].
    """

    title: str
    issued: str
    seats: tuple[Seat, ...]
    questions: int
    minutes: int


def proctor_page(sitting: Sitting, imprint: Imprint, *, root: str = "") -> str:
    """Return the proctor sheet as a web page; ``root`` is the way to the folder of the stylesheet."""
    return _render(sitting, imprint, root=root, paper=False)


def proctor_paper(sitting: Sitting, imprint: Imprint) -> str:
    """Return the proctor sheet as HTML for the PDF maker."""
    return _render(sitting, imprint, root="", paper=True)


def _render(sitting: Sitting, imprint: Imprint, *, root: str, paper: bool) -> str:
    open_seats = [seat for seat in sitting.seats if not (seat.void or seat.answered)]
    form = (open_seats or sitting.seats)[0].form
    return render(
        "proctor.html.j2",
        imprint,
        title=say("publish_proctor.title", title=sitting.title),
        sitting=sitting,
        sections=[
            (say(f"publish_proctor.{head}"), [(rule, say(f"publish_proctor.rule-{rule}")) for rule in rules])
            for head, rules in _RULES
        ],
        command=say("publish_proctor.command-leak", form=form),
        root=root,
        paper=paper,
        style=static_text("papers.css") + static_text("proctor.css"),
    )
