"""The log of a fault of ours: what a maintainer needs to find it."""

import platform
import sys
import tempfile
import traceback
from collections.abc import Iterator, Sequence
from datetime import datetime
from importlib.metadata import packages_distributions, version
from pathlib import Path

from courseware import __version__


def write_log(error: BaseException, arguments: Sequence[str], now: datetime) -> Path | None:
    """Write the log of an unexpected error.

    Parameters
    ----------
    error : BaseException
        The error, with its traceback.
    arguments : sequence of str
        What was typed after the program's name.
    now : datetime
        The time; it is in the file's name.

    Returns
    -------
    Path or None
        The file, in the current folder or, where that cannot be written, in the system's folder for temporary files;
        None if neither can be written.
    """
    text = "\n".join(_lines(error, arguments, now))
    name = f"courseware-error-{now:%Y%m%d-%H%M%S}.log"
    for folder in (Path.cwd(), Path(tempfile.gettempdir())):
        try:
            (folder / name).write_text(text, encoding="utf-8", errors="backslashreplace")
        except OSError:
            continue
        return folder / name
    return None


def _lines(error: BaseException, arguments: Sequence[str], now: datetime) -> Iterator[str]:
    yield f"time: {now:%Y-%m-%d %H:%M:%S %Z}"
    yield f"command: courseware {' '.join(arguments)}"
    yield f"courseware {__version__}"
    yield f"Python {platform.python_version()} on {platform.platform()}"
    loaded = {module.partition(".")[0] for module in sys.modules}
    used = {name for module, names in packages_distributions().items() if module in loaded for name in names}
    yield from (f"{name} {version(name)}" for name in sorted(used, key=str.lower))
    yield ""
    yield "".join(traceback.format_exception(error))
