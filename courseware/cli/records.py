"""``courseware records``: begin the records, enroll people, verify everything."""

from collections.abc import Mapping
from typing import Final

from courseware.cli.declare import CommandGroup

COMMANDS: Final[Mapping[str, str]] = {
    "begin": "courseware.cli.records_begin",
    "enroll": "courseware.cli.records_enroll",
    "verify": "courseware.cli.records_verify",
}

command: Final = CommandGroup("records", COMMANDS)
