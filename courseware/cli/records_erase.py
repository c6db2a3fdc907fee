"""``courseware records erase``: forget who a person is; what they did stays in the records, nameless."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.staff import erase_person


@declared("records-erase")
@click.argument("person", metavar=say("cli.a-person"))
@click.confirmation_option("--yes", prompt=say("cli.records-erase-sure"), help=say("cli.records-erase-option-yes"))
@COMPANY
@PASSPHRASE
def command(person: str, folder: Path, passphrase: str) -> None:
    """Erase a person."""
    with desk(folder, passphrase) as at:
        found = erase_person(at, person)
    click.echo(say("cli.erased", person=found.id))
