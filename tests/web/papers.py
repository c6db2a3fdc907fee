"""Every PDF held against PDF/UA-1 (ISO 14289-1), by a checker that shares nothing with the maker."""

from collections.abc import Iterable
from pathlib import Path

import page as pdf_checker

from tests.web.report import Report


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
