"""``courseware records erase``: forget who a person is; what they did stays in the records, nameless."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.content.words import say
from courseware.jobs.company import Places, open_company
from courseware.records.people import erase, find_person


@declared("records-erase")
@click.argument("person", metavar=say("cli.a-person"))
@click.confirmation_option("--yes", prompt=say("cli.records-erase-sure"), help=say("cli.records-erase-option-yes"))
@COMPANY
@PASSPHRASE
def command(person: str, folder: Path, passphrase: str) -> None:
    """Erase a person."""
    with open_company(Places(folder), passphrase) as company:
        found = find_person(company.store, person)
        erase(company.store, found.id, company.key, datetime.now(UTC).astimezone())
    click.echo(say("cli.erased", person=found.id))
