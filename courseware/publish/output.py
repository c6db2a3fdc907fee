"""The folders that commands fill, and the one way in which files get there.

A file is written only if its bytes changed, and it is moved into place whole, so that a reader
never sees half a page and an unchanged build touches nothing.
"""

import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

from courseware.publish.fonts import font_faces
from courseware.publish.pages import FONT_FOLDER, screen_style


@dataclass(frozen=True, slots=True)
class OutputFolders:
    """The three folders of a build: each holds what one kind of person may see.

    Attributes
    ----------
    trainee : Path
        Lessons, practice, quiz papers without keys.
    trainer : Path
        Keys, proofs, answer sheets.
    office : Path
        Records, reports, certificates.
    """

    trainee: Path
    trainer: Path
    office: Path

    @classmethod
    def under(cls, build: Path) -> "OutputFolders":
        """Return the folders below ``build``; nothing is made yet."""
        return cls(build / "trainee", build / "trainer", build / "office")

    def each(self) -> tuple[Path, Path, Path]:
        """Return the three folders."""
        return self.trainee, self.trainer, self.office


def write_file(path: Path, data: bytes) -> bool:
    """Write a file if its bytes changed.

    Parameters
    ----------
    path : Path
        Where; missing folders are made.
    data : bytes
        The whole content.

    Returns
    -------
    bool
        True if the file was written, False if it already held these bytes.
    """
    if path.is_file() and path.read_bytes() == data:
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    # In the same folder, so that the move is one step on every file system.
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return True


def write_page(path: Path, html: str) -> bool:
    """Write an HTML page as UTF-8 if it changed; return whether it was written."""
    return write_file(path, html.encode("utf-8"))


def write_style(folder: Path) -> None:
    """Put the stylesheet and its fonts into one output folder, so that the folder can travel alone."""
    write_file(folder / "course.css", screen_style().encode("utf-8"))
    for face in font_faces():
        write_file(folder / FONT_FOLDER / face.file.name, face.file.read_bytes())


def addresses(folder: Path, stem: str) -> tuple[str, str]:
    """Return the addresses of a page and its paper, from their folder; empty for one that was not made."""
    page, paper = (f"{stem}.{ending}" if (folder / f"{stem}.{ending}").is_file() else "" for ending in ("html", "pdf"))
    return page, paper
