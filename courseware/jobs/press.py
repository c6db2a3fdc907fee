"""Writes pages and papers; a machine without the libraries for PDF still gets every page.

A page costs milliseconds, a paper a fifth of a second for each of its sheets. So a paper that was made from the same
page before is left as it is, and where several are to be made, other processes make them meanwhile.
"""

import os
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field
from functools import cache, partial
from multiprocessing import get_context
from pathlib import Path
from typing import Final, TypeVar

from courseware.publish.output import write_file, write_page
from courseware.publish.pdf import PdfUnavailable, html_to_pdf, is_made_from

T = TypeVar("T")

Told = Callable[[str], None]
"""Receives one line on what is being done, for whoever waits."""

_WORTH_HELP: Final = 3  # papers; starting a process costs about as much as making two small ones
_MOST_PROCESSES: Final = 4  # each takes about 130 MB


@dataclass(slots=True)
class Press:
    """One run of writing; pages are there at once, papers after :meth:`finish`.

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
    _drawn: dict[Path, Callable[[], str]] = field(default_factory=dict)
    _wanted: dict[Path, str] = field(default_factory=dict)
    _at_work: dict[str, Callable[[], bytes]] = field(default_factory=dict)

    def page(self, path: Path, html: str) -> None:
        """Write a page."""
        self.tell(str(path))
        self._count(path, changed=write_page(path, html))

    def slow_page(self, path: Path, draw: Callable[[], str]) -> None:
        """Let another process draw a page, from a function that can be sent there; it is there after :meth:`finish`.

        Asked for twice, it is drawn once.
        """
        if path not in self._drawn:
            self.tell(str(path))
            self._drawn[path] = _sent_out(draw)

    def paper(self, path: Path, html: str) -> None:
        """Take the PDF of a page in hand; it is made by the time :meth:`finish` returns."""
        self.tell(str(path))
        if is_made_from(path, html):
            self._wanted.pop(path, None)
            self._count(path, changed=False)
            return
        self._wanted[path] = html
        waiting = dict.fromkeys(self._wanted.values())
        if len(waiting) >= _WORTH_HELP:
            for one in waiting.keys() - self._at_work.keys():
                self._at_work[one] = _sent_out(partial(html_to_pdf, one))

    def finish(self) -> None:
        """Write every page and paper in hand, or note what the machine lacks."""
        for path, drawn in self._drawn.items():
            self._count(path, changed=write_page(path, drawn()))
        self._drawn.clear()
        made: dict[str, bytes] = {}
        for path, html in self._wanted.items():
            try:
                data = made[html] = made.get(html) or self._at_work.get(html, partial(html_to_pdf, html))()
            except PdfUnavailable as error:
                self.no_pdf = str(error)
                break
            self._count(path, changed=write_file(path, data))
        self._wanted.clear()
        self._at_work.clear()

    def _count(self, path: Path, *, changed: bool) -> None:
        self.made.append(path)
        self.changed += changed


def _sent_out(make: Callable[[], T]) -> Callable[[], T]:
    """Let another process make something; return what waits for it, and makes it here if the helpers were killed."""
    try:
        future = _helpers().submit(make)
    except BrokenProcessPool:
        return make

    def result() -> T:
        try:
            return future.result()
        except BrokenProcessPool:
            return make()

    return result


@cache
def _helpers() -> ProcessPoolExecutor:
    """Return the processes that make papers: one for each core, started when first needed, gone with the program."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    # Spawned, not forked: a copy of a process that has threads may hang.
    return ProcessPoolExecutor(min(cores, _MOST_PROCESSES), mp_context=get_context("spawn"))
