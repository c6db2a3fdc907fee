"""Give a company its own copy of a course, to edit."""

import shutil
from pathlib import Path
from typing import Final

from courseware.content.documents import BANK, MODULES, content_files
from courseware.content.problems import Problems
from courseware.content.refusal import Refusal
from courseware.content.words import say

_TOPS: Final = (BANK, MODULES)


def copy_course(course: Path, target: Path) -> tuple[str, ...]:
    """Copy a course's content files, byte for byte, into a new or empty folder.

    Parameters
    ----------
    course : Path
        The course folder to copy.
    target : Path
        The folder to fill; it is made where it does not exist.

    Returns
    -------
    tuple of str
        Names of the files made, relative to ``target``, with forward slashes.

    Raises
    ------
    Refusal
        If ``target`` is a file, holds anything, or lies inside the course's own content.
    OSError
        If a file cannot be read or written; then nothing of the copy is left.
    """
    _refuse_unfit(course, target)
    files = content_files(course, Problems())
    try:
        for top in _TOPS:
            (target / top).mkdir(parents=True)
        for name, path in files:
            copy = target / name
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, copy)  # not its mode: what a package installs may be read-only
    except BaseException:
        for top in _TOPS:
            shutil.rmtree(target / top, ignore_errors=True)
        raise
    return tuple(name for name, _ in files)


def _refuse_unfit(course: Path, target: Path) -> None:
    if target.exists() and not target.is_dir():
        raise Refusal(say("jobs.new-is-file", folder=target), say("jobs.new-try"))
    if target.is_dir() and any(target.iterdir()):
        raise Refusal(say("jobs.new-not-empty", folder=target), say("jobs.new-try"))
    for top in _TOPS:
        if target.resolve().is_relative_to((course / top).resolve()):
            raise Refusal(say("jobs.new-inside", folder=target, top=course / top), say("jobs.new-try"))
