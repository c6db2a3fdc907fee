"""How a command is declared: its words come from the catalogue, its module is imported when it is called.

A command is one module whose ``command`` was made with :func:`declared`, one entry in the registry of its group,
and four messages in ``cli.toml``: ``<key>-summary`` (the line in the group's list), ``<key>-help``,
``<key>-examples`` (real command lines, which the tests run through the parser), and one ``<key>-option-...`` for each
option of its own. The key is the command's words joined by hyphens: ``check``, ``records-verify``.

A group of commands is such a module too: its ``command`` is a :class:`CommandGroup` with a registry of its own, whose
modules are named by all the words: ``records verify`` lives in ``records_verify.py``.
"""

from collections.abc import Callable, Mapping, Sequence
from importlib import import_module
from typing import Any

import click

from courseware.content.problems import listed, nearest
from courseware.content.words import say


class ExampleCommand(click.Command):
    """A command whose help ends with command lines as they are typed, each on its own line."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the arguments; a fault in them names this command."""
        try:
            return super().parse_args(ctx, args)
        except click.UsageError as error:
            error.ctx = error.ctx or ctx  # Click leaves it out for an option without its value
            raise

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples; Click itself would wrap them."""
        _write_examples(self.epilog or "", ctx, formatter)


class CommandGroup(click.Group):
    """A group that knows its commands by name and imports one only when it is called.

    Parameters
    ----------
    key : str
        The group's words joined by hyphens; empty for the program itself.
    modules : mapping of str to str
        Command name -> module whose ``command`` it is, in the order in which help lists them.
    """

    def __init__(self, key: str, modules: Mapping[str, str], **settings: Any) -> None:
        words = f"{key}-" if key else ""
        settings.setdefault("help", say(f"cli.{words}help"))
        settings.setdefault("epilog", say(f"cli.{words}examples"))
        super().__init__(key.rpartition("-")[2] or None, **settings)
        self.modules = modules
        self._words = words

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  # Click passes it
        """Return the names in the order of the registry, which is the order of the work."""
        return list(self.modules)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002  # Click passes it
        """Import the command's module and return its command."""
        if cmd_name not in self.modules:
            return None
        command = import_module(self.modules[cmd_name]).command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command called; an unknown one is refused with the nearest name."""
        name = args[0]
        if name in self.modules or name.startswith("-"):
            return super().resolve_command(ctx, args)
        advice = nearest(name, self.modules) or say("cli.commands-are", names=listed(self.modules))
        raise click.UsageError(say("cli.no-such-command", name=name, advice=advice), ctx)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Show the help where no command is named."""
        if not args:
            click.echo(ctx.get_help(), err=True)
            ctx.exit(1)
        return super().parse_args(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002  # Click passes it
        """List the commands with their summaries from the catalogue, importing none of them."""
        with formatter.section(say("cli.title-commands")):
            formatter.write_dl([(name, say(f"cli.{self._words}{name}-summary")) for name in self.modules])

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples; Click itself would wrap them."""
        _write_examples(self.epilog or "", ctx, formatter)


def declared(key: str, name: str = "") -> Callable[[Callable[..., None]], click.Command]:
    """Make a function a command whose help and examples come from the catalogue.

    Parameters
    ----------
    key : str
        The command's words joined by hyphens, as in the catalogue.
    name : str
        Its own name, where that has a hyphen itself; by default the key's last word.

    Returns
    -------
    callable
        The decorator; it goes above the options.
    """
    own = name or key.rpartition("-")[2]
    return click.command(own, cls=ExampleCommand, help=say(f"cli.{key}-help"), epilog=say(f"cli.{key}-examples"))


def examples_of(command: click.Command) -> Sequence[str]:
    """Return the command lines that the command's help shows."""
    return (command.epilog or "").splitlines()


def _write_examples(text: str, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG001
    with formatter.section(say("cli.title-examples")):
        for line in text.splitlines():
            formatter.write(f"{'':>{formatter.current_indent}}{line}\n")
