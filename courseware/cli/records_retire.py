"""``courseware records retire``: end a signer's use of their key."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.staff import retire


@declared("records-retire")
@click.argument("person", metavar=say("cli.a-person"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.records-retire-option-reason"))
@COMPANY
@PASSPHRASE
def command(person: str, reason: str, folder: Path, passphrase: str) -> None:
    """Retire a signer."""
    with desk(folder, passphrase) as at:
        one = retire(at, person, reason)
    click.echo(say("cli.retired", person=one.id, name=one.name))
