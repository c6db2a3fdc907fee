"""The printed quiz: the questions, an answer sheet, and the lines for the person who watches."""

from courseware.quiz.form import Form


def quiz_paper(form: Form) -> str:
    """Return the quiz paper of a form as HTML for the PDF maker."""
    raise NotImplementedError


def quiz_paper_pdf(form: Form) -> bytes:
    """Return the quiz paper as PDF/UA-1.

    Raises
    ------
    PdfUnavailable
        If the system libraries for PDF are missing.
    """
    raise NotImplementedError
