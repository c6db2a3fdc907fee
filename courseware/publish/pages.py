"""HTML pages from templates: one environment, one base page, one stylesheet for the screen and one for PDF.

Every page extends ``base.html.j2``, which gives it the masthead of a work order, a link to skip
to the text, and a foot with the course version and the line that defers to local code.
Templates get their interface words from the catalogue by the global ``say``. A value that a
template asks for and nobody gave is an error, and every value is escaped unless it is
:class:`markupsafe.Markup`.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from courseware.content.words import say
from courseware.publish.assets import static_text
from courseware.publish.fonts import FontFace, font_faces

#: Where the fonts lie beside a stylesheet that was copied into an output folder.
FONT_FOLDER: Final = "fonts"


@dataclass(frozen=True, slots=True)
class Imprint:
    """Which course a page belongs to; every page says so.

    Attributes
    ----------
    title : str
        What the course is called.
    version : str
        The version its authors gave it.
    """

    title: str
    version: str


@lru_cache(maxsize=1)
def environment() -> Environment:
    """Return the template environment, made once."""
    made = Environment(
        loader=PackageLoader("courseware.publish", "templates"),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.globals.update(say=say)
    made.filters["letter"] = lambda place: chr(ord("A") + place)
    return made


def render(template: str, imprint: Imprint, **values: object) -> str:
    """Render one template.

    Parameters
    ----------
    template : str
        File name in ``templates/``, such as ``lesson.html.j2``.
    imprint : Imprint
        The course the page belongs to.
    values : object
        What the template shows. Every page built on ``base.html.j2`` needs ``title`` and takes
        ``root`` (relative way from the page to the folder of the stylesheet, default ``""``),
        ``paper`` (true for PDF: no stylesheet link, no navigation) and ``inline_style`` (CSS to carry
        inside the page, for a page that travels alone; see :func:`screen_style`).

    Returns
    -------
    str
        The page.

    Raises
    ------
    jinja2.UndefinedError
        If the template asks for a value that was not given: our fault, never the author's.
    """
    usual = {"root": "", "paper": False, "inline_style": "", "imprint": imprint}
    return environment().get_template(template).render(usual | values)


def render_part(template: str, **values: object) -> Markup:
    """Render a piece of a page; see :func:`render`."""
    return Markup(environment().get_template(template).render(values))  # noqa: S704 - the template escapes


def screen_style(font_folder: str = FONT_FOLDER) -> str:
    """Return the CSS of web pages: dark and light, phone to desktop, and print.

    Parameters
    ----------
    font_folder : str
        Way from the stylesheet to the font files; empty: use the reader's own fonts (pages that travel alone).
    """
    faces = _font_css(lambda face: f"{font_folder}/{face.file.name}") if font_folder else ""
    return faces + static_text("parts.css") + static_text("course.css")


def paper_style() -> str:
    """Return the CSS of PDFs, with the fonts as files of the installed font package."""
    return _font_css(lambda face: face.file.as_uri()) + static_text("parts.css") + static_text("sheet.css")


def _font_css(address: Callable[[FontFace], str]) -> str:
    rules = (
        f'@font-face{{font-family:"Course Sans";font-weight:{face.weight};font-style:{face.style};'
        f'font-display:swap;src:url("{address(face)}")}}\n'
        for face in font_faces()
    )
    return "".join(rules)
