"""``courseware records``: begin the records, enroll people, sign off their work, verify everything."""

from collections.abc import Mapping
from typing import Final

from courseware.cli.declare import CommandGroup

COMMANDS: Final[Mapping[str, str]] = {
    "begin": "courseware.cli.records_begin",
    "enroll": "courseware.cli.records_enroll",
    "people": "courseware.cli.records_people",
    "qualify": "courseware.cli.records_qualify",
    "withdraw": "courseware.cli.records_withdraw",
    "erase": "courseware.cli.records_erase",
    "sign-off": "courseware.cli.records_sign_off",
    "verify": "courseware.cli.records_verify",
}

command: Final = CommandGroup("records", COMMANDS)
