"""``courseware new``: give a company its own copy of the course to edit."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COURSE
from courseware.content.folders import course_folder, shipped_course
from courseware.content.words import say
from courseware.jobs.new import copy_course


@declared("new")
@click.argument("folder", type=click.Path(path_type=Path), metavar=say("cli.a-folder"))
@COURSE
def command(folder: Path, course: Path | None) -> None:
    """Copy a course."""
    copied = copy_course(course_folder(course) if course else shipped_course(), folder)
    click.echo(say("cli.new-done", count=len(copied), folder=folder))
