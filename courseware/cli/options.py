"""Options that several commands share."""

from pathlib import Path
from typing import Final

import click

from courseware.content.words import say

COURSE: Final = click.option(
    "--course",
    type=click.Path(path_type=Path),
    metavar=say("cli.a-folder"),
    help=say("cli.option-course"),
)
