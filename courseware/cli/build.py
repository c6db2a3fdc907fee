"""``courseware build``: make the lessons and the front pages."""

from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COURSE, PASSPHRASE
from courseware.cli.work import tell, tell_no_pdf
from courseware.content.folders import course_folder
from courseware.content.words import say
from courseware.jobs.build import build_course, sound_course
from courseware.jobs.company import BUILD, Places, open_company
from courseware.jobs.press import Press


@declared("build")
@COURSE
@click.option("--out", type=click.Path(path_type=Path), metavar=say("cli.a-folder"), help=say("cli.build-option-out"))
@PASSPHRASE
def command(course: Path | None, out: Path | None, passphrase: str) -> None:
    """Build the course."""
    folder = course_folder(course)
    click.echo(say("cli.reading-course", folder=folder), err=True)
    sound = sound_course(folder)
    with ExitStack() as stack:
        begun = Places(folder).records.exists()
        company = stack.enter_context(open_company(Places(folder), passphrase)) if begun else None
        target = out or (folder / BUILD if course or begun else Path(BUILD))
        built = build_course(sound, company, target, datetime.now(UTC).astimezone().date(), Press(tell))
    tell_no_pdf(built.no_pdf)
    click.echo(say("cli.build-done", files=built.files, changed=built.changed, start=built.start))
