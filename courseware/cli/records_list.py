"""``courseware records list``: one of the office's lists, to read or for a spreadsheet."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY
from courseware.content.words import say
from courseware.jobs.build import sound_course
from courseware.jobs.company import Places, not_begun
from courseware.jobs.lists import DUE_DAYS, LISTS, Sources
from courseware.publish.office_table import csv_bytes
from courseware.publish.output import write_file
from courseware.records.store import open_store


@declared("records-list")
@click.argument("name", type=click.Choice(list(LISTS)), metavar=say("cli.a-list"))
@click.option(
    "--csv", "file", type=click.Path(path_type=Path), metavar=say("cli.a-file"), help=say("cli.records-list-option-csv")
)
@click.option(
    "--within",
    type=click.IntRange(min=0),
    default=DUE_DAYS,
    metavar=say("cli.days"),
    help=say("cli.records-list-option-within"),
)
@COMPANY
def command(name: str, file: Path | None, within: int, folder: Path) -> None:
    """Show a list."""
    records = Places(folder).records
    if not records.exists():
        raise not_begun(folder)
    course, today = sound_course(folder), datetime.now(UTC).astimezone().date()
    with open_store(records) as store:
        table = LISTS[name](Sources(course, store, today, within))
    if file is not None:
        write_file(file, csv_bytes(table))
        click.echo(say("cli.listed", rows=len(table.rows), file=file))
    elif table.rows:
        for row in (table.headings, *table.rows):
            click.echo("\t".join(map(str, row)))
    else:
        click.echo(table.empty)
