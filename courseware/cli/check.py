"""``courseware check``: read a whole course and report every fault in it."""

import json
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COURSE
from courseware.content.folders import course_folder
from courseware.content.problems import ContentError
from courseware.content.words import say
from courseware.jobs.check import check_course


@declared("check")
@COURSE
@click.option("--json", "as_json", is_flag=True, help=say("cli.check-option-json"))
def command(course: Path | None, as_json: bool) -> None:  # noqa: FBT001  # Click passes options by name
    """Check a course."""
    report = check_course(course_folder(course))
    if as_json:
        click.echo(json.dumps(report.as_json(), indent=2))
        if report.problems:
            click.get_current_context().exit(1)
    elif report.problems:
        raise ContentError(report.problems)
    else:
        click.echo(report.summary())
