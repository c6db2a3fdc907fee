"""``courseware reissue``: give the holder of a form another one."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import replaced_lines
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.void import reissue
from courseware.quiz.base32 import read_as


@declared("reissue")
@click.argument("form", metavar=say("cli.a-form"))
@click.option("--reason", default="", metavar=say("cli.a-text"), help=say("cli.reissue-option-reason"))
@COMPANY
@PASSPHRASE
def command(form: str, reason: str, folder: Path, passphrase: str) -> None:
    """Reissue a form."""
    with desk(folder, passphrase) as at:
        done = reissue(at, read_as(form.strip()), reason)
    tell_no_pdf(done.no_pdf)
    for line in replaced_lines(done, folder):
        click.echo(line)
