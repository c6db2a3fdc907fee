"""``courseware records merge``: record that two enrollments are one person."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.work import desk
from courseware.content.words import say
from courseware.jobs.staff import merge_people
from courseware.records.people import OnePerson


@declared("records-merge")
@click.argument("duplicate", metavar=say("cli.a-duplicate"))
@click.argument("person", metavar=say("cli.a-person"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.records-merge-option-reason"))
@COMPANY
@PASSPHRASE
def command(duplicate: str, person: str, reason: str, folder: Path, passphrase: str) -> None:
    """Merge two enrollments."""
    with desk(folder, passphrase) as at:
        one = merge_people(at, OnePerson(duplicate, person, reason))
    click.echo(say("cli.merged", duplicate=duplicate.strip().upper(), person=one.id, name=one.name))
