"""The command ``courseware``: its list of commands, and the one door to all of them."""

import io
import sys
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Final

import click

from courseware import __version__
from courseware.cli.declare import CommandGroup
from courseware.cli.faults import exit_code

# In the order of the work, which is the order of the help. A module is imported when its command is called.
COMMANDS: Final[Mapping[str, str]] = {
    "new": "courseware.cli.new",
    "check": "courseware.cli.check",
    "add-questions": "courseware.cli.add_questions",
    "build": "courseware.cli.build",
    "records": "courseware.cli.records",
    "issue": "courseware.cli.issue",
    "void": "courseware.cli.void",
    "reissue": "courseware.cli.reissue",
    "grade": "courseware.cli.grade",
    "change-mark": "courseware.cli.change_mark",
    "class-sheet": "courseware.cli.class_sheet",
    "certify": "courseware.cli.certify",
    "demo": "courseware.cli.demo",
}

program: Final = CommandGroup("", COMMANDS, context_settings={"help_option_names": ["-h", "--help"]})
click.version_option(__version__, message="%(prog)s %(version)s")(program)


def main() -> None:
    """Run the command line and end the process: 0 done, 1 the person's fault, 3 ours, 130 stopped."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a console or pipe that cannot show a sign still gets the rest
    now = datetime.now(UTC)
    sys.exit(exit_code(lambda: program.main(prog_name="courseware", standalone_mode=False), sys.argv[1:], now))
