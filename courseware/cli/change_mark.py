"""``courseware change-mark``: give an item of a graded form other points, and say why."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY, PASSPHRASE
from courseware.cli.told import changed_lines
from courseware.cli.work import desk, tell_no_pdf
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.change_mark import Change, change_mark
from courseware.quiz.base32 import read_as


@declared("change-mark", "change-mark")
@click.argument("form", metavar=say("cli.a-form"))
@click.argument("question", type=int, metavar=say("cli.a-question"))
@click.argument("points", metavar=say("cli.some-points"))
@click.option("--reason", required=True, metavar=say("cli.a-text"), help=say("cli.change-mark-option-reason"))
@click.option("--by", metavar=say("cli.a-person"), help=say("cli.change-mark-option-by"))
@COMPANY
@PASSPHRASE
def command(form: str, question: int, points: str, folder: Path, passphrase: str, **why: Any) -> None:
    """Change a mark."""
    change = Change(read_as(form.strip()), question, _points(points), **why)
    with desk(folder, passphrase) as at:
        done = change_mark(at, change)
    tell_no_pdf(done.no_pdf)
    for line in changed_lines(done, change.item):
        click.echo(line)
    click.echo(say("cli.grade-done", page=folder / "build" / "trainer" / "index.html"))


def _points(text: str) -> Fraction:
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError) as error:
        raise Refusal(say("cli.no-points", text=text), say("cli.no-points-try")) from error
