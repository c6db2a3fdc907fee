"""``courseware grade``: mark what trainees handed in, and record it."""

from pathlib import Path
from typing import Any

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import graded_lines
from courseware.cli.work import desk
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.grade import Inbox, grade_inbox


@declared("grade")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path), metavar=say("cli.files"))
@click.option("--code", "codes", multiple=True, metavar=say("cli.a-code"), help=say("cli.grade-option-code"))
@click.option("--sheet", "sheets", multiple=True, metavar=say("cli.a-code"), help=say("cli.grade-option-sheet"))
@click.option("--supervised-by", metavar=say("cli.a-person"), help=say("cli.grade-option-supervised-by"))
@COMPANY
@PASSPHRASE
def command(supervised_by: str | None, folder: Path, passphrase: str, **handed_in: Any) -> None:
    """Grade responses."""
    inbox = Inbox(**handed_in)
    if inbox == Inbox():
        raise click.UsageError(say("cli.grade-nothing"))
    refused = graded = 0
    with desk(folder, passphrase) as at:
        for outcome in grade_inbox(at, inbox, supervised_by):
            if isinstance(outcome, Refusal):
                refused += 1
                click.echo(str(outcome), err=True)
            else:
                graded += 1
                for line in graded_lines(outcome):
                    click.echo(line)
    if graded:
        click.echo(say("cli.grade-done", page=folder / "build" / "trainer" / "index.html"))
    if refused:
        click.get_current_context().exit(1)
