"""``courseware records withdraw``: end a certificate before its time."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.content.words import say
from courseware.jobs.company import Places, open_company
from courseware.records.certificates import withdraw


@declared("records-withdraw")
@click.argument("code", metavar=say("cli.a-code"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.records-withdraw-option-reason"))
@COMPANY
@PASSPHRASE
def command(code: str, reason: str, folder: Path, passphrase: str) -> None:
    """Withdraw a certificate."""
    with open_company(Places(folder), passphrase) as company:
        ended = withdraw(company.store, code, reason, company.key, datetime.now(UTC).astimezone())
    click.echo(say("cli.withdrawn", code=ended.code))
