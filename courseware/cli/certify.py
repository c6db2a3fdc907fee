"""``courseware certify``: certify a person under a program, if nothing speaks against it."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import certified_line
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.words import say
from courseware.jobs.certify import certify


@declared("certify")
@click.argument("person", metavar=say("cli.a-person"))
@click.argument("program", metavar=say("cli.a-program"))
@COMPANY
@PASSPHRASE
def command(person: str, program: str, folder: Path, passphrase: str) -> None:
    """Certify a person."""
    with desk(folder, passphrase) as at:
        done = certify(at, person, program)
    tell_no_pdf(done.no_pdf)
    click.echo(certified_line(done))
    click.echo(say("cli.certify-done", page=done.page))
