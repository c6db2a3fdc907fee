"""``courseware add-questions``: write the questions of a spreadsheet into the question bank."""

from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY
from courseware.content.folders import course_folder
from courseware.content.words import say
from courseware.jobs.add_questions import add_questions, write_empty


@declared("add-questions", "add-questions")
@click.argument("file", type=click.Path(path_type=Path), metavar=say("cli.a-file"))
@click.option("--author", default="", metavar=say("cli.a-name"), help=say("cli.add-questions-option-author"))
@click.option("--replace", "anew", is_flag=True, help=say("cli.add-questions-option-replace"))
@click.option("--template", is_flag=True, help=say("cli.add-questions-option-template"))
@COMPANY
def command(file: Path, author: str, folder: Path, **how: bool) -> None:
    """Add questions."""
    course = course_folder(folder)
    if how["template"]:
        write_empty(course, file)
        click.echo(say("cli.add-questions-empty", file=file))
        return
    added = add_questions(course, file, author, anew=how["anew"])
    click.echo(say("cli.add-questions-done", count=sum(map(len, added.ids.values())), file=added.file))
    for pool, ids in added.ids.items():
        click.echo(say("cli.add-questions-ids", pool=pool, ids=", ".join(ids)))
