"""The HTML quiz: one form as one page that travels alone and works without a network."""

from courseware.quiz.form import Form


def quiz_page(form: Form) -> str:
    """Return the quiz page of a form.

    Parameters
    ----------
    form : Form
        The public form; the key is not asked for and cannot leak.

    Returns
    -------
    str
        HTML that carries its style, its script and the form inside itself.
    """
    raise NotImplementedError
