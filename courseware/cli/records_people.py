"""``courseware records people``: list everybody who is enrolled."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY
from courseware.content.words import say
from courseware.jobs.company import Places, not_begun
from courseware.records.people import people
from courseware.records.signers import signers
from courseware.records.store import open_store


@declared("records-people")
@COMPANY
def command(folder: Path) -> None:
    """List everybody."""
    file = Places(folder).records
    if not file.exists():
        raise not_begun(folder)
    with open_store(file) as store:
        active = {one.person_id for one in signers(store) if one.retired_at is None}
        for person in people(store):
            role = say("cli.people-signer") if person.id in active else ""
            click.echo("\t".join(filter(None, (person.id, person.name, person.email, role))))
