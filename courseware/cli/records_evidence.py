"""``courseware records evidence``: enter what an experienced person brings with them."""

from datetime import datetime
from pathlib import Path
from typing import Any

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.staff import Brought, enter_brought


@declared("records-evidence")
@click.argument("person", metavar=say("cli.a-person"))
@click.argument("evidence", metavar=say("cli.a-text"))
@click.option("--program", metavar=say("cli.a-program"), help=say("cli.records-evidence-option-program"))
@click.option("--procedure", metavar=say("cli.a-procedure"), help=say("cli.records-evidence-option-procedure"))
@click.option(
    "--on", type=click.DateTime(["%Y-%m-%d"]), metavar=say("cli.a-day"), help=say("cli.records-evidence-option-on")
)
@click.option("--by", metavar=say("cli.a-person"), help=say("cli.records-evidence-option-by"))
@COMPANY
@PASSPHRASE
def command(person: str, on: datetime | None, folder: Path, passphrase: str, **told: Any) -> None:
    """Enter evidence."""
    with desk(folder, passphrase) as at:
        done = enter_brought(at, person, Brought(on=on.date() if on else None, **told))
    click.echo(
        say("cli.evidence-entered", person=done.person.id, name=done.person.name, title=done.title, seq=done.seq)
    )
    if done.takers:
        titles = ", ".join(program.title for program in done.takers)
        click.echo(say("cli.evidence-taken", programs=titles))
    else:
        click.echo(say("cli.evidence-not-taken"))
