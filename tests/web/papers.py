"""Every PDF held against PDF/UA-1 (ISO 14289-1) and drawn, by tools that share nothing with the maker."""

import re
import subprocess
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

import numpy as np
import page as pdf_checker
from numpy.typing import NDArray

from tests.web.report import Report
from tests.web.tools import command

DOTS: Final = 40  # per inch
EDGE: Final = 10  # dots: 1/4 inch, which many office printers cannot print (common practice, no source)
PALE: Final = 200  # of 255: darker than this is ink


def check_papers(papers: Iterable[Path]) -> Report:
    """Validate PDF files against the profile ``ua1``.

    Parameters
    ----------
    papers : iterable of Path
        PDF files.

    Returns
    -------
    Report
        Its faults name file, rule and message.
    """
    seen, faults = [], []
    for path in sorted(papers):
        seen.append(path)
        try:
            report = pdf_checker.validate_pdf(path, profile="ua1")
        except pdf_checker.PageError as error:
            faults.append(f"{path.name}: not readable as PDF: {error}")
            continue
        faults.extend(f"{path.name}: {failure.rule_id}: {failure.message}" for failure in report.failures)
        if not report.is_compliant and not report.failures:
            faults.append(f"{path.name}: not compliant, and the checker does not say why")
    return Report(tuple(seen), tuple(faults))


def check_prints(papers: Iterable[Path]) -> Report:
    """Draw every page and look where the ink is: on the page, and not where a printer cuts it off.

    Parameters
    ----------
    papers : iterable of Path
        PDF files.

    Returns
    -------
    Report
        Its faults name file, page, and what is wrong: an empty page, or ink at the edge.
    """
    tool = command("pdftoppm")
    seen: list[Path] = []
    faults: list[str] = []
    for path in sorted(papers):
        run = subprocess.run(  # noqa: S603 (fixed program)
            [tool, "-gray", "-r", str(DOTS), str(path)], capture_output=True, check=False, timeout=120
        )
        pages = list(_pictures(run.stdout))
        seen.append(path)
        if run.returncode or not pages:
            faults.append(f"{path.name}: cannot be drawn")
        for number, ink in enumerate(pages, start=1):
            if not ink.any():
                faults.append(f"{path.name}: page {number} is empty")
            elif ink[:, :EDGE].any() or ink[:, -EDGE:].any() or ink[:EDGE].any() or ink[-EDGE:].any():
                faults.append(f"{path.name}: page {number} has ink within 1/4 inch of the edge")
    return Report(tuple(seen), tuple(faults))


def _pictures(data: bytes) -> Iterator[NDArray[np.bool_]]:
    """Yield the pages of a portable graymap stream (PGM, P5) as arrays (rows, columns): true where there is ink."""
    place = 0
    while header := re.compile(rb"P5\s(\d+)\s(\d+)\s255\s").match(data, place):
        columns, rows = int(header[1]), int(header[2])
        place = header.end() + rows * columns
        yield np.frombuffer(data, np.uint8, rows * columns, header.end()).reshape(rows, columns) < PALE
