"""``courseware records withdraw``: end a certificate before its time."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.withdraw import withdraw_certificate


@declared("records-withdraw")
@click.argument("code", metavar=say("cli.a-code"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.records-withdraw-option-reason"))
@COMPANY
@PASSPHRASE
def command(code: str, reason: str, folder: Path, passphrase: str) -> None:
    """Withdraw a certificate."""
    with desk(folder, passphrase) as at:
        ended = withdraw_certificate(at, code, reason)
    click.echo(say("cli.withdrawn", code=ended.code))
