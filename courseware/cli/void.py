"""``courseware void``: take a form that leaked or was lost out of use, and issue another in its place."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.void import void
from courseware.quiz.base32 import read_as


@declared("void")
@click.argument("form", metavar=say("cli.a-form"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.void-option-reason"))
@click.option("--no-replacement", is_flag=True, help=say("cli.void-option-no-replacement"))
@COMPANY
@PASSPHRASE
def command(form: str, reason: str, no_replacement: bool, folder: Path, passphrase: str) -> None:  # noqa: FBT001  # Click passes options by name
    """Void a form."""
    with desk(folder, passphrase) as at:
        done = void(at, read_as(form.strip()), reason, replace=not no_replacement)
    tell_no_pdf(done.no_pdf)
    click.echo(say("cli.voided", form=done.form))
    if done.replacement:
        new, person = done.replacement.form, done.replacement.person
        click.echo(say("cli.issued", form=new.id, person=person.id, name=person.name))
        click.echo(say("cli.issue-done", page=folder / "build" / "trainee" / "index.html"))
