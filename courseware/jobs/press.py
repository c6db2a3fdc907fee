"""Writes pages and papers; a machine without the libraries for PDF still gets every page."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from courseware.publish.output import write_file, write_page
from courseware.publish.pdf import PdfUnavailable

Told = Callable[[str], None]
"""Receives one line on what is being done, for whoever waits."""


@dataclass(slots=True)
class Press:
    """One run of writing.

    Attributes
    ----------
    tell : callable
        Receives the name of each file before it is made.
    made : list of Path
        Files made, whether or not their bytes changed.
    changed : int
        How many of them changed [-].
    no_pdf : str
        What to install, once a PDF could not be made; empty while all goes well.
    """

    tell: Told
    made: list[Path] = field(default_factory=list)
    changed: int = 0
    no_pdf: str = ""

    def page(self, path: Path, html: str) -> None:
        """Write a page."""
        self.tell(str(path))
        self._count(path, changed=write_page(path, html))

    def paper(self, path: Path, make: Callable[[], bytes]) -> None:
        """Write a PDF, or note what the machine lacks."""
        if self.no_pdf:
            return
        self.tell(str(path))
        try:
            data = make()
        except PdfUnavailable as error:
            self.no_pdf = str(error)
        else:
            self._count(path, changed=write_file(path, data))

    def _count(self, path: Path, *, changed: bool) -> None:
        self.made.append(path)
        self.changed += changed
