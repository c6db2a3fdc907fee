"""``courseware demo``: the whole job once, with an invented company."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.told import certified_line, graded_lines
from courseware.cli.work import tell, tell_no_pdf
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.demo import run_demo


@declared("demo")
@click.argument("folder", type=click.Path(path_type=Path), default=Path("build"), metavar=say("cli.a-folder-or-none"))
def command(folder: Path) -> None:
    """Run the demonstration."""
    shown = run_demo(folder, datetime.now(UTC).astimezone(), tell)
    for outcome in shown.outcomes:
        if isinstance(outcome, Refusal):
            click.echo(say("cli.demo-refused", told=outcome))
        else:
            for line in graded_lines(outcome):
                click.echo(line)
    for answer in shown.certified:
        if isinstance(answer, Refusal):
            click.echo(str(answer))
        else:
            click.echo(certified_line(answer))
    click.echo(shown.verification.report())
    tell_no_pdf(shown.no_pdf)
    click.echo(say("cli.demo-done", page=shown.start))
    if not shown.verification.ok:
        click.get_current_context().exit(1)
