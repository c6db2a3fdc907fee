"""What ends a command: the one place where an exception becomes words on stderr and an exit code."""

import errno
import sys
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Final

import click

from courseware.cli.log import write_log
from courseware.content.problems import ContentError
from courseware.content.refusal import Refusal
from courseware.content.words import say

DONE: Final = 0
PERSONS: Final = 1
OURS: Final = 3
STOPPED: Final = 130
_PACKAGE: Final = Path(__file__).resolve().parent.parent


def exit_code(run: Callable[[], object], arguments: Sequence[str], now: datetime) -> int:
    """Run a command; tell what stopped it, if anything did.

    Parameters
    ----------
    run : callable
        Runs the command; an ``int`` that it returns is the exit code that the command chose.
    arguments : sequence of str
        What was typed after the program's name, for the log.
    now : datetime
        The time, for the log's name.

    Returns
    -------
    int
        0 done; 1 the person's fault, told in a line that says what to try; 3 ours, with a log to send; 130 stopped.
    """
    try:
        chosen = run()
        sys.stdout.flush()
    except (click.Abort, KeyboardInterrupt):
        click.echo(say("cli.stopped"), err=True)
        return STOPPED
    except Exception as error:  # noqa: BLE001  # the door: nothing may pass it untold
        told = _tell(error)
        click.echo(told or _tell_ours(error, arguments, now), err=True)
        return PERSONS if told else OURS
    return chosen if isinstance(chosen, int) else DONE


def _tell(error: Exception) -> str:
    """Return what to say about a person's fault; nothing if the fault is ours."""
    told = ""
    match error:
        case click.UsageError():
            command = error.ctx.command_path if error.ctx else "courseware"
            told = say("cli.usage", command=command, found=error.format_message())
        case click.ClickException():
            told = error.format_message()
        case Refusal():
            told = str(error)
        case ContentError():
            files = len({problem.source.file for problem in error.problems})
            told = f"{error}\n{say('cli.content-faults', faults=len(error.problems), files=files)}"
        case OSError(errno=errno.ENOSPC):
            told = say("cli.disk-full")
        case OSError(filename=str() as name) if not Path(name).resolve().is_relative_to(_PACKAGE):
            told = say("cli.file-fault", file=name, reason=error.strerror)
    return told


def _tell_ours(error: Exception, arguments: Sequence[str], now: datetime) -> str:
    kind, reason = type(error).__name__, " ".join(str(error).split())
    log = write_log(error, arguments, now)
    if log is None:
        return say("cli.ours-without-log", kind=kind, reason=reason)
    return say("cli.ours", kind=kind, reason=reason, log=log)
