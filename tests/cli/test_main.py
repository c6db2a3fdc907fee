"""The door: help, its weight, the list of commands, and what every command owes its reader."""

import ast
import importlib
import json
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from courseware import __version__
from courseware.cli.declare import CommandGroup, examples_of
from courseware.cli.main import COMMANDS, program
from tests.cli.conftest import ROOT, Run

HEAVY = (
    "weasyprint",
    "sqlalchemy",
    "numpy",
    "scipy",
    "faker",
    "pint",
    "jinja2",
    "yaml",
    "rich",
    "cryptography",
    "markdown_it",
)


def commands(
    group: CommandGroup = program, words: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Yield every command of a group and of the groups inside it, with its words."""
    ctx = click.Context(group)
    for name in group.list_commands(ctx):
        command = group.get_command(ctx, name)
        assert command is not None
        yield (*words, name), command
        if isinstance(command, CommandGroup):
            yield from commands(command, (*words, name))


ALL = dict(commands())


def modules_after(*arguments: str) -> set[str]:
    """Return the modules that a command line has imported when it ends."""
    script = (
        "import json, sys, atexit\n"
        f"sys.argv = ['courseware', *{arguments!r}]\n"
        "atexit.register(lambda: print(json.dumps(sorted(sys.modules)), file=sys.stderr))\n"
        "from courseware.cli.main import main\nmain()\n"
    )
    done = subprocess.run(  # noqa: S603  # a fixed program
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, check=False, timeout=60
    )
    return set(json.loads(done.stderr.splitlines()[-1]))


@pytest.mark.parametrize("arguments", [("--help",), ("-h",), ("--version",), ("no-such-command",)])
def test_the_door_loads_nothing_heavy_and_no_command(arguments: tuple[str, ...]) -> None:
    loaded = modules_after(*arguments)
    assert "click" in loaded
    assert [name for name in HEAVY if name in loaded] == []
    assert [name for name in COMMANDS.values() if name in loaded] == []
    assert [name for name in loaded if name.startswith("courseware.jobs.")] == []


def test_the_measure_of_weight_sees_weight() -> None:
    assert "yaml" in modules_after("check", "--help")


def test_help_lists_every_command_and_shows_real_command_lines(run: Run) -> None:
    done = run("--help")
    assert done.returncode == 0
    assert done.stderr == ""
    first, _, rest = done.stdout.partition("\n\nOptions:\n")
    assert first == (
        "Usage: courseware [OPTIONS] COMMAND [ARGS]...\n\n"
        "  Train, test and certify technicians who service used-oil-fired shop heaters."
    )
    listed = rest.partition("Commands:\n")[2].partition("\n\n")[0]
    assert [line.split()[0] for line in listed.splitlines() if line.startswith("  ") and line[2] != " "] == list(
        COMMANDS
    )
    assert [line.strip() for line in rest.partition("Examples:\n")[2].splitlines()] == examples_of(program)


def test_no_command_shows_the_help_and_fails(run: Run) -> None:
    done = run()
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == run("--help").stdout


def test_the_version_is_told(run: Run) -> None:
    done = run("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"courseware {__version__}\n", "")


# The words between the command and the advice are Click's, and differ between its versions.
@pytest.mark.parametrize(
    ("arguments", "command", "named"),
    [
        (["--vresion"], "courseware", "--vresion"),
        (["new"], "courseware new", "FOLDER"),
        (["new", "a", "b"], "courseware new", "b"),
        (["check", "--course"], "courseware check", "--course"),
        (["check", "--jsn"], "courseware check", "--jsn"),
    ],
)
def test_a_command_line_that_is_not_understood_is_answered_in_one_line(
    run: Run, arguments: list[str], command: str, named: str
) -> None:
    done = run(*arguments)
    assert (done.returncode, done.stdout) == (1, "")
    assert re.fullmatch(rf"{command}: [^\n]*{named}[^\n]* Try: {command} --help\n", done.stderr)


def test_a_near_miss_of_a_command_is_answered_with_its_name(run: Run) -> None:
    done = run("chek")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == "courseware: there is no command 'chek'; did you mean 'check'? Try: courseware --help\n"


def test_a_far_miss_lists_the_commands(run: Run) -> None:
    done = run("zzz")
    assert done.returncode == 1
    assert done.stderr == (
        f"courseware: there is no command 'zzz'; the commands are {', '.join(sorted(COMMANDS))}. "
        "Try: courseware --help\n"
    )


@pytest.mark.parametrize("words", ALL, ids=" ".join)
def test_every_command_explains_itself(words: tuple[str, ...]) -> None:
    command = ALL[words]
    assert command.name == words[-1]
    assert command.help
    assert examples_of(command)
    for parameter in command.params:
        if isinstance(parameter, click.Option):
            assert parameter.help, f"{' '.join(words)} {parameter.opts}"


@pytest.mark.parametrize("words", [(), *ALL], ids=lambda words: " ".join(words) or "courseware")
def test_every_example_in_the_help_is_a_command_line_that_parses(
    words: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for line in examples_of(ALL[words] if words else program):
        name, *arguments = shlex.split(line)
        assert name == "courseware"
        command: click.Command = program
        ctx = click.Context(program, info_name="courseware")
        while isinstance(command, CommandGroup):
            found, command_or_none, arguments = command.resolve_command(ctx, arguments)
            assert found is not None
            assert command_or_none is not None
            command = command_or_none
        if "--help" not in arguments:
            command.make_context(command.name, list(arguments), parent=ctx)


@pytest.mark.parametrize("words", ALL, ids=" ".join)
def test_every_command_is_one_module_with_a_test_file_of_the_same_name(words: tuple[str, ...]) -> None:
    module = importlib.import_module(f"courseware.cli.{'_'.join(words).replace('-', '_')}")
    assert module.command is ALL[words]
    own = ROOT / "tests" / "cli" / f"test_{'_'.join(words).replace('-', '_')}.py"
    assert own.is_file()
    assert [node for node in ast.walk(ast.parse(own.read_text(encoding="utf-8"))) if isinstance(node, ast.Assert)]
