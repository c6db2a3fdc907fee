"""PDF from HTML: tagged PDF/UA-1, only our own fonts, the same bytes for the same page.

The PDF library needs the system's text libraries. Where those are missing, HTML is still made;
:class:`PdfUnavailable` says in one line what to install.
"""

import hashlib
import logging
from functools import cache
from importlib.metadata import version
from pathlib import Path

from courseware.content.words import say
from courseware.publish.pages import paper_style


class PdfUnavailable(Exception):  # noqa: N818 - it names a state of the machine, not a mistake
    """PDF cannot be made on this machine; the text says what to install."""


class PdfFault(Exception):  # noqa: N818 - the same
    """The PDF library complained about the page; the text holds all it said. Our fault, not the author's."""


class _Complaints(logging.Handler):
    """Keeps what the PDF library logs while one page is made."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one line."""
        self.lines.append(record.getMessage())


def html_to_pdf(html: str, *, base: Path | None = None) -> bytes:
    """Make a tagged PDF/UA-1 file.

    Parameters
    ----------
    html : str
        A page rendered with ``paper=True``; it has ``lang``, a title and headings in order.
    base : Path, optional
        Folder that relative addresses in the page start from; without it the page must have none.

    Returns
    -------
    bytes
        The PDF.

    Raises
    ------
    PdfUnavailable
        If the system libraries for PDF are missing.
    PdfFault
        If the PDF library logged anything: a page that it only half understood is not shipped.
    """
    try:
        import weasyprint  # noqa: PLC0415 - a second to import, and absent libraries must not stop the HTML
        from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415 - the same
    except OSError as error:
        raise PdfUnavailable(say("publish.pdf-unavailable")) from error
    fonts = FontConfiguration()
    complaints = _Complaints()
    logger = logging.getLogger("weasyprint")
    logger.addHandler(complaints)
    try:
        style = weasyprint.CSS(string=paper_style(), font_config=fonts)
        page = weasyprint.HTML(string=html, base_url=str(base) if base else None)
        data: bytes = page.write_pdf(
            stylesheets=[style], font_config=fonts, pdf_variant="pdf/ua-1", pdf_identifier=_mark(html)
        )
    finally:
        logger.removeHandler(complaints)
    if complaints.lines:
        raise PdfFault("\n".join(complaints.lines))
    return data


def is_made_from(path: Path, html: str) -> bool:
    """Say whether a PDF is there that :func:`html_to_pdf` made from the same page, by the same stylesheet and library.

    A file carries the mark of its page as its PDF identifier (ISO 32000-1, 14.4); one cut short lacks its last line.
    """
    data = path.read_bytes() if path.is_file() else b""
    return _mark(html) in data and data.rstrip().endswith(b"%%EOF")


def _mark(html: str) -> bytes:
    """Return what a page's PDF is known by."""
    return hashlib.sha256(f"{_maker()}\0{html}".encode()).hexdigest().encode("ascii")


@cache
def _maker() -> str:
    """Return what makes papers and how they look; the same for as long as the program runs."""
    return "\0".join((version("weasyprint"), version("pydyf"), paper_style()))
