"""The printed quiz: the questions, an answer sheet, and the lines for the person who watches.

What is circled and written on the answer sheet is the answer code, so that a trainer types it in
as it stands.
"""

from courseware.publish.answering import WRITE, way_of
from courseware.publish.assets import static_text
from courseware.publish.pages import Imprint, render
from courseware.quiz.form import Form


def quiz_paper(form: Form, imprint: Imprint) -> str:
    """Return the quiz paper of a form as HTML for the PDF maker.

    Parameters
    ----------
    form : Form
        The public form; the key is not asked for and cannot leak.
    imprint : Imprint
        The course it belongs to.
    """
    numeric = next((item.number for item in form.items if way_of(item) == WRITE), None)
    return render(
        "quiz_paper.html.j2",
        imprint,
        paper=True,
        form=form,
        title=f"{form.title} {form.id}",
        minutes=sum(item.minutes for item in form.items),
        way_of=way_of,
        number_example=f"{numeric}=8.5/13" if numeric else "",
        blank_example=f"{form.items[-1].number}=-",
        style=static_text("papers.css"),
    )
