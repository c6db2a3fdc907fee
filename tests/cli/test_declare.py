"""Groups inside groups: their words, their laziness, and their faults."""

import sys
from types import ModuleType

import click
import pytest
from click.testing import CliRunner

from courseware.cli import declare
from courseware.cli.declare import CommandGroup, declared, examples_of

WORDS = {
    "cli.help": "The program.",
    "cli.examples": "program ledger verify --deep",
    "cli.gone-summary": "Nothing there.",
    "cli.ledger-summary": "Look at the ledger.",
    "cli.ledger-help": "The ledger.",
    "cli.ledger-examples": "program ledger verify --deep",
    "cli.ledger-verify-summary": "Verify the ledger.",
    "cli.ledger-verify-help": "Verify every entry.",
    "cli.ledger-verify-examples": "program ledger verify\nprogram ledger verify --deep",
    "cli.title-commands": "Commands",
    "cli.title-examples": "Examples",
    "cli.no-such-command": "no '{name}'; {advice}",
    "cli.commands-are": "there are {names}.",
}


@pytest.fixture
def program(monkeypatch: pytest.MonkeyPatch) -> CommandGroup:
    """Make a program of one group of one command, in modules that exist only here."""
    monkeypatch.setattr(declare, "say", lambda key, **values: WORDS[key].format(**values))
    group, leaf = ModuleType("invented_ledger"), ModuleType("invented_ledger_verify")
    vars(group)["command"] = CommandGroup("ledger", {"verify": "invented_ledger_verify"})

    @declared("ledger-verify")
    @click.option("--deep", is_flag=True, help="Verify more.")
    def command(deep: bool) -> None:  # noqa: FBT001  # Click passes options by name
        click.echo(f"verified, deep: {deep}")

    vars(leaf)["command"] = command
    for module in (group, leaf):
        monkeypatch.setitem(sys.modules, module.__name__, module)
    return CommandGroup("", {"ledger": "invented_ledger", "gone": "invented_gone"})


def output(program: CommandGroup, *arguments: str) -> tuple[int, str]:
    done = CliRunner().invoke(program, arguments, prog_name="program")
    return done.exit_code, done.output


def test_a_command_inside_a_group_runs(program: CommandGroup) -> None:
    assert output(program, "ledger", "verify", "--deep") == (0, "verified, deep: True\n")


def test_help_of_the_program_imports_no_command(program: CommandGroup) -> None:
    """The module of ``gone`` does not exist: had it been imported, help would have failed."""
    code, told = output(program, "--help")
    assert code == 0
    assert "Commands:\n  ledger  Look at the ledger.\n  gone    Nothing there.\n" in told
    with pytest.raises(ModuleNotFoundError):
        program.main(["gone"], standalone_mode=False)


def test_help_of_a_group_lists_its_commands_and_examples(program: CommandGroup) -> None:
    assert output(program, "ledger", "--help") == (
        0,
        (
            "Usage: program ledger [OPTIONS] COMMAND [ARGS]...\n\n  The ledger.\n\n"
            "Options:\n  --help  Show this message and exit.\n\n"
            "Commands:\n  verify  Verify the ledger.\n\n"
            "Examples:\n  program ledger verify --deep\n"
        ),
    )


def test_help_of_a_command_keeps_its_examples_a_line_each(program: CommandGroup) -> None:
    code, told = output(program, "ledger", "verify", "--help")
    assert code == 0
    assert told.endswith("Examples:\n  program ledger verify\n  program ledger verify --deep\n")


def test_an_unknown_command_of_a_group_names_the_group(program: CommandGroup) -> None:
    with pytest.raises(click.UsageError) as caught:
        program.main(["ledger", "verfy"], prog_name="program", standalone_mode=False)
    assert caught.value.ctx is not None
    assert (caught.value.ctx.command_path, caught.value.message) == (
        "program ledger",
        "no 'verfy'; did you mean 'verify'?",
    )


def test_a_fault_in_the_options_names_the_command(program: CommandGroup) -> None:
    with pytest.raises(click.UsageError) as caught:
        program.main(["ledger", "verify", "--deeper"], prog_name="program", standalone_mode=False)
    assert caught.value.ctx is not None
    assert caught.value.ctx.command_path == "program ledger verify"


def test_examples_are_lines(program: CommandGroup) -> None:
    assert examples_of(program) == ["program ledger verify --deep"]
    assert examples_of(click.Command("bare")) == []
