"""``courseware issue``: give each person a quiz of their own."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.issue import issue_quiz


@declared("issue")
@click.argument("quiz", metavar=say("cli.a-quiz"))
@click.argument("people", nargs=-1, required=True, metavar=say("cli.people"))
@COMPANY
@PASSPHRASE
def command(quiz: str, people: tuple[str, ...], folder: Path, passphrase: str) -> None:
    """Issue a quiz."""
    with desk(folder, passphrase) as at:
        issue = issue_quiz(at, quiz, people)
    tell_no_pdf(issue.no_pdf)
    for one in issue.forms:
        click.echo(say("cli.issued", form=one.form.id, person=one.person.id, name=one.person.name))
    click.echo(say("cli.issue-done", page=folder / "build" / "trainee" / "index.html"))
