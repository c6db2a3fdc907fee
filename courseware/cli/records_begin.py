"""``courseware records begin``: set up the company and its first qualified signer."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.content.words import say
from courseware.jobs.company import Beginning, Places, begin_company


@declared("records-begin")
@click.option("--name", required=True, metavar=say("cli.a-name"), help=say("cli.records-begin-option-name"))
@click.option("--signer", required=True, metavar=say("cli.a-name"), help=say("cli.records-begin-option-signer"))
@COMPANY
@PASSPHRASE
def command(name: str, signer: str, folder: Path, passphrase: str) -> None:
    """Begin the records."""
    person = begin_company(folder, Beginning(name, signer, passphrase), datetime.now(UTC).astimezone())
    click.echo(say("cli.begun", company=name, name=person.name, person=person.id))
    click.echo(say("cli.begun-keep", folder=Places(folder).office))
