"""``courseware records qualify``: let a second qualified person watch quizzes and sign."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.content.words import say
from courseware.jobs.company import Places, open_company
from courseware.records.keys import new_signing_key, save_signing_key
from courseware.records.people import find_person
from courseware.records.signers import add_signer


@declared("records-qualify")
@click.argument("person", metavar=say("cli.a-person"))
@click.option(
    "--key-file",
    type=click.Path(path_type=Path),
    required=True,
    metavar=say("cli.a-file"),
    help=say("cli.records-qualify-option-key-file"),
)
@COMPANY
@PASSPHRASE
def command(person: str, key_file: Path, folder: Path, passphrase: str) -> None:
    """Add a signer."""
    key = new_signing_key()
    with open_company(Places(folder), passphrase) as company, company.store.transaction():
        found = find_person(company.store, person)
        add_signer(company.store, found.id, key.public, company.key, datetime.now(UTC).astimezone())
        save_signing_key(key, key_file)  # inside the transaction: a key that cannot be kept is not registered
    click.echo(say("cli.signer-added", person=found.id, name=found.name, file=key_file))
