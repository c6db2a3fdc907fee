"""``courseware records``: the group."""

import re

from courseware.cli.records import COMMANDS
from tests.cli.conftest import Run


def test_its_help_lists_its_commands(run: Run) -> None:
    done = run("records", "--help")
    assert (done.returncode, done.stderr) == (0, "")
    listed = done.stdout.partition("Commands:\n")[2].partition("\n\n")[0]
    assert re.findall(r"^  (\S+)", listed, re.MULTILINE) == list(COMMANDS)


def test_a_near_miss_is_answered_with_the_name(run: Run) -> None:
    done = run("records", "verfy")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "courseware records: there is no command 'verfy'; did you mean 'verify'? Try: courseware records --help\n"
    )
