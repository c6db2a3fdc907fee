"""A whole course: every content file of a folder, read by every room's loader."""

from dataclasses import dataclass
from pathlib import Path

from courseware.content.problems import Problems


@dataclass(frozen=True, slots=True)
class Course:
    """Everything that a course folder holds, loaded.

    Attributes
    ----------
    folder : Path
        The course folder.
    title : str
        What the course is called.
    version : str
        The version its authors gave it.
    hash : str
        SHA-256 [64 hex digits] over the names and contents of all content files, line ends counted as LF.
    """

    folder: Path
    title: str
    version: str
    hash: str


def load_course(folder: Path, problems: Problems) -> Course:
    """Read a course folder.

    Parameters
    ----------
    folder : Path
        The course folder, which holds ``question_bank/`` and ``modules/``.
    problems : Problems
        Receives every fault of every file; no job may use the course before ``problems.raise_if_any()``.

    Returns
    -------
    Course
        The course; with stand-ins where there are problems.
    """
    raise NotImplementedError
