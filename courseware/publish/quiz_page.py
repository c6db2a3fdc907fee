"""The HTML quiz: one form as one page that travels alone and works without a network.

The page carries its style, its script and the public form. It keeps the answers on the trainee's device
as they are given, and ends in a receipt: the answer file and the answer code. Without scripts it is a
paper to read, and says how to write the answer code by hand.
"""

import json
from typing import Final

from courseware.content.words import say
from courseware.publish.answering import ARRANGE, SEVERAL, way_of
from courseware.publish.assets import script_mark, static_text
from courseware.publish.pages import Imprint, render, screen_style
from courseware.quiz.form import Form, form_bytes

#: The messages that the script says: ``publish_pages.spoken-...``.
SPOKEN: Final = (
    "again",
    "again-not-kept",
    "answered",
    "cleared",
    "copied",
    "hand-in",
    "hand-in-anyway",
    "kept",
    "lost",
    "moved",
    "no-number",
    "not-copied",
    "not-kept",
    "open",
    "order-taken",
    "other-none",
    "other-unit",
    "other-window",
    "progress",
    "receipt-count",
    "saved",
    "still-open",
    "still-wrong",
    "two-ways",
)
#: Each field filled with its own name: the script fills it.
_UNFILLED: Final = {
    name: f"{{{name}}}" for name in ("all", "decimal", "done", "file", "number", "place", "tag", "thousands", "unit")
}


def quiz_page(form: Form, imprint: Imprint) -> str:
    """Return the quiz page of a form.

    Parameters
    ----------
    form : Form
        The public form; the key is not asked for and cannot leak.
    imprint : Imprint
        The course it belongs to.

    Returns
    -------
    str
        HTML that asks for no other file.
    """
    script = static_text("quiz.js")
    words = {name: say(f"publish_pages.spoken-{name}", **_UNFILLED) for name in SPOKEN}
    return render(
        "quiz.html.j2",
        imprint,
        form=form,
        title=f"{form.title} {form.id}",
        minutes=sum(item.minutes for item in form.items),
        way_of=way_of,
        first={way_of(item): item for item in reversed(form.items)},
        fields=_fields(form),
        form_json=_inside_script(form_bytes(form).decode("utf-8")),
        words_json=_inside_script(json.dumps(words, sort_keys=True, ensure_ascii=False, separators=(",", ":"))),
        script=script,
        mark=script_mark(script),
        # Its own fonts would make the page a megabyte; it travels by mail, so the reader's fonts do.
        inline_style=screen_style("") + static_text("quiz.css"),
    )


def _fields(form: Form) -> int | None:
    """Return how many fields the answer code has with every question answered [-]; None: it depends on the answers."""
    ways = [way_of(item) for item in form.items]
    if SEVERAL in ways:
        return None
    return sum(len(item.options) if way == ARRANGE else 1 for item, way in zip(form.items, ways, strict=True))


def _inside_script(text: str) -> str:
    """Return JSON that cannot end the script element it stands in (HTML standard, 4.12.1.3)."""
    return text.replace("<", "\\u003c")
