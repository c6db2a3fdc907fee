"""Where course content lies: in the installed package, in a checkout, or in a company's own folder."""

from pathlib import Path
from typing import Final

from courseware.content.documents import BANK, MODULES
from courseware.content.refusal import Refusal
from courseware.content.words import say

PACKAGE: Final = Path(__file__).resolve().parent.parent


def shipped_course() -> Path:
    """Return the folder of the course that comes with the program.

    A wheel carries it inside the package; in a checkout it is the checkout itself.
    """
    packed = PACKAGE / "shipped"
    return packed if packed.is_dir() else PACKAGE.parent


def course_folder(named: Path | None) -> Path:
    """Return the course folder to use: the named one, else the current folder if it is one, else the shipped one.

    Raises
    ------
    Refusal
        If the named folder is not a course folder.
    """
    if named is not None:
        if not is_course(named):
            raise Refusal(
                say("content.no-course", folder=named, bank=BANK, modules=MODULES), say("content.no-course-try")
            )
        return named
    return Path() if is_course(Path()) else shipped_course()


def is_course(folder: Path) -> bool:
    """Say whether the folder holds a question bank and modules."""
    return (folder / BANK).is_dir() and (folder / MODULES).is_dir()
