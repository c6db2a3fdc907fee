"""``courseware records withdraw-evidence``: take evidence back that was wrong."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import taken_back_lines
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.withdraw import take_back_evidence


@declared("records-withdraw-evidence", "withdraw-evidence")
@click.argument("entry", type=click.IntRange(min=1), metavar=say("cli.an-entry"))
@click.option(
    "--reason", required=True, metavar=say("cli.a-text"), help=say("cli.records-withdraw-evidence-option-reason")
)
@COMPANY
@PASSPHRASE
def command(entry: int, reason: str, folder: Path, passphrase: str) -> None:
    """Take evidence back."""
    with desk(folder, passphrase) as at:
        done = take_back_evidence(at, entry, reason)
    for line in taken_back_lines(done):
        click.echo(line)
