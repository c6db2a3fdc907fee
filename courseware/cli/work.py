"""What the commands that do work have in common: the company's desk, and the progress that a waiting person sees."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.content.words import say
from courseware.jobs.build import sound_course
from courseware.jobs.company import Places, open_company
from courseware.jobs.desk import Desk


def tell(line: str) -> None:
    """Show a line of progress on stderr, so that what the command prints stays clean."""
    click.echo(f"  {line}", err=True)


def tell_no_pdf(no_pdf: str) -> None:
    """Say what to install where papers could not be made."""
    if no_pdf:
        click.echo(no_pdf, err=True)


@contextmanager
def desk(folder: Path, passphrase: str) -> Iterator[Desk]:
    """Open a company's desk for one command; the time is read here, once."""
    now = datetime.now(UTC).astimezone()
    with open_company(Places(folder), passphrase) as company:
        click.echo(say("cli.reading-course", folder=folder), err=True)
        at = Desk.at(sound_course(folder), company, now, tell)
        yield at
        at.write_office_papers()
