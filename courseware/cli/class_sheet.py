"""``courseware class-sheet``: how a class did on a quiz, what to teach again, which questions to look at."""

from datetime import date, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.class_sheet import Choice, write_class_sheet
from courseware.quiz.base32 import read_as


@declared("class-sheet", "class-sheet")
@click.argument("quiz", metavar=say("cli.a-quiz"))
@click.argument("forms", nargs=-1, metavar=say("cli.forms-or-none"))
@click.option(
    "--since", type=click.DateTime(["%Y-%m-%d"]), metavar=say("cli.a-day"), help=say("cli.class-sheet-option-since")
)
@COMPANY
@PASSPHRASE
def command(quiz: str, forms: tuple[str, ...], since: datetime | None, folder: Path, passphrase: str) -> None:
    """Write a class sheet."""
    day: date | None = since.date() if since else None
    with desk(folder, passphrase) as at:
        made = write_class_sheet(at, quiz, Choice(tuple(read_as(form.strip()) for form in forms), day))
    tell_no_pdf(made.no_pdf)
    click.echo(say("cli.class-sheet-done", forms=made.forms, page=made.page))
