"""``courseware records``: who was enrolled, what they did and brought, lists of it all, and its verification."""

from collections.abc import Mapping
from typing import Final

from courseware.cli.declare import CommandGroup

COMMANDS: Final[Mapping[str, str]] = {
    "begin": "courseware.cli.records_begin",
    "enroll": "courseware.cli.records_enroll",
    "people": "courseware.cli.records_people",
    "merge": "courseware.cli.records_merge",
    "erase": "courseware.cli.records_erase",
    "qualify": "courseware.cli.records_qualify",
    "retire": "courseware.cli.records_retire",
    "sign-off": "courseware.cli.records_sign_off",
    "evidence": "courseware.cli.records_evidence",
    "withdraw": "courseware.cli.records_withdraw",
    "withdraw-sign-off": "courseware.cli.records_withdraw_sign_off",
    "withdraw-evidence": "courseware.cli.records_withdraw_evidence",
    "list": "courseware.cli.records_list",
    "verify": "courseware.cli.records_verify",
}

command: Final = CommandGroup("records", COMMANDS)
