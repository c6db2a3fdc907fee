"""``courseware records enroll``: enter a person who is to be trained."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.content.words import say
from courseware.jobs.company import Places, open_company
from courseware.records.people import enroll


@declared("records-enroll")
@click.argument("name", metavar=say("cli.a-name"))
@click.argument("email", metavar=say("cli.an-email"))
@COMPANY
@PASSPHRASE
def command(name: str, email: str, folder: Path, passphrase: str) -> None:
    """Enroll a person."""
    with open_company(Places(folder), passphrase) as company:
        person = enroll(company.store, name, email, company.key, datetime.now(UTC).astimezone())
    click.echo(say("cli.enrolled", person=person.id, name=person.name))
