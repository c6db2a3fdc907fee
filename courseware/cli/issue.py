"""``courseware issue``: give each person a quiz of their own."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.issue import issue_quiz
from courseware.jobs.roster import issue_to_roster


@declared("issue")
@click.argument("quiz", metavar=say("cli.a-quiz"))
@click.argument("people", nargs=-1, metavar=say("cli.people-or-none"))
@click.option(
    "--roster", type=click.Path(path_type=Path), metavar=say("cli.a-file"), help=say("cli.issue-option-roster")
)
@COMPANY
@PASSPHRASE
def command(quiz: str, people: tuple[str, ...], roster: Path | None, folder: Path, passphrase: str) -> None:
    """Issue a quiz."""
    if bool(people) == bool(roster):
        raise click.UsageError(say("cli.issue-whom"))
    with desk(folder, passphrase) as at:
        if roster:
            done = issue_to_roster(at, quiz, roster)
            issue = done.issue
            for person in done.enrolled:
                click.echo(say("cli.enrolled", person=person.id, name=person.name))
        else:
            issue = issue_quiz(at, quiz, people)
    tell_no_pdf(issue.no_pdf)
    for one in issue.forms:
        click.echo(say("cli.issued", form=one.form.id, person=one.person.id, name=one.person.name))
    click.echo(say("cli.issue-done", page=folder / "build" / "trainee" / "index.html"))
