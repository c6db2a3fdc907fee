"""``courseware records sign-off``: record that a signer saw a person carry out a procedure on a unit."""

from datetime import datetime
from pathlib import Path
from typing import Any

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.signoff import Seen, sign_off_work


@declared("records-sign-off", "sign-off")
@click.argument("person", metavar=say("cli.a-person"))
@click.argument("procedure", metavar=say("cli.a-procedure"))
@click.option("--unit", required=True, metavar=say("cli.a-unit"), help=say("cli.records-sign-off-option-unit"))
@click.option(
    "--on", type=click.DateTime(["%Y-%m-%d"]), metavar=say("cli.a-day"), help=say("cli.records-sign-off-option-on")
)
@click.option("--by", metavar=say("cli.a-person"), help=say("cli.records-sign-off-option-by"))
@click.option("--serial", default="", metavar=say("cli.a-text"), help=say("cli.records-sign-off-option-serial"))
@click.option("--remark", default="", metavar=say("cli.a-text"), help=say("cli.records-sign-off-option-remark"))
@COMPANY
@PASSPHRASE
def command(person: str, on: datetime | None, folder: Path, passphrase: str, **told: Any) -> None:
    """Sign off a person's work."""
    with desk(folder, passphrase) as at:
        done = sign_off_work(at, person, Seen(on=on.date() if on else None, **told))
    click.echo(
        say(
            "cli.signed-off",
            person=done.person.id,
            name=done.person.name,
            procedure=done.procedure,
            unit=done.unit,
            on=done.on,
        )
    )
