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
COMPANY: Final = click.option(
    "--company",
    "folder",
    type=click.Path(path_type=Path),
    default=Path(),
    metavar=say("cli.a-folder"),
    help=say("cli.option-company"),
)
PASSPHRASE: Final = click.option(
    "--passphrase",
    envvar="COURSEWARE_PASSPHRASE",
    default="",
    metavar=say("cli.a-text"),
    help=say("cli.option-passphrase"),
)
