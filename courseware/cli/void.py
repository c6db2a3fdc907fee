"""``courseware void``: take forms that leaked or were lost out of use, and issue others in their place."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import replaced_lines
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.void import void, void_leaked
from courseware.quiz.base32 import read_as


@declared("void")
@click.argument("form", metavar=say("cli.a-form"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.void-option-reason"))
@click.option("--leaked", is_flag=True, help=say("cli.void-option-leaked"))
@click.option("--no-replacement", is_flag=True, help=say("cli.void-option-no-replacement"))
@COMPANY
@PASSPHRASE
def command(form: str, reason: str, folder: Path, passphrase: str, **how: bool) -> None:
    """Void forms."""
    with desk(folder, passphrase) as at:
        take_out = void_leaked if how["leaked"] else void
        done = take_out(at, read_as(form.strip()), reason, replace=not how["no_replacement"])
    tell_no_pdf(done.no_pdf)
    for line in replaced_lines(done, folder):
        click.echo(line)
