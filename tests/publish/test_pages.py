"""The base page: one look, nothing asked of the network, nothing unescaped, nothing missing in silence."""

import re

import jinja2
import pytest

from courseware.publish.fonts import font_faces
from courseware.publish.pages import Imprint, environment, paper_style, render, screen_style

IMPRINT = Imprint("Heaters & more", "1.2")
PAGE = '{% extends "base.html.j2" %}{% block content %}<h1>{{ title }}</h1>{% endblock %}'


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> str:
    """Give the name of a template that only shows its title."""
    monkeypatch.setattr(
        environment(), "loader", jinja2.ChoiceLoader([jinja2.DictLoader({"page": PAGE}), environment().loader])  # type: ignore[list-item] # the loader is set
    )  # fmt: skip
    return "page"


def test_a_page_has_language_title_and_course_and_defers_to_local_code(page: str) -> None:
    html = render(page, IMPRINT, title="Gap < post")
    assert '<html lang="en">' in html
    assert "<title>Gap &lt; post - Heaters &amp; more</title>" in html
    assert '<link rel="stylesheet" href="course.css">' in html
    assert "Local code and the unit&#39;s own manual come first." in html
    assert "Course version 1.2." in html
    assert '<a class="skip" href="#content">' in html


def test_paper_has_no_link_and_nothing_to_click(page: str) -> None:
    html = render(page, IMPRINT, title="Gap", paper=True)
    assert "<link" not in html
    assert "<a " not in html


def test_a_page_that_travels_alone_carries_its_style(page: str) -> None:
    html = render(page, IMPRINT, title="Gap", inline_style="p > b { color: red }")
    assert "<style>p > b { color: red }</style>" in html
    assert "<link" not in html


def test_a_value_that_nobody_gave_is_an_error(page: str) -> None:
    with pytest.raises(jinja2.UndefinedError, match="'title' is undefined"):
        render(page, IMPRINT)


@pytest.mark.parametrize("style", [screen_style(), screen_style(""), paper_style()])
def test_no_stylesheet_reaches_for_the_network(style: str) -> None:
    addresses = re.findall(r"url\(\"?([^)\"]+)", style)
    assert all(address.startswith(("fonts/", "file:///", "data:image/svg+xml,")) for address in addresses)
    assert "@import" not in style


def test_fonts_are_files_of_the_font_package() -> None:
    faces = font_faces()
    assert [(face.weight, face.style) for face in faces] == [
        (400, "normal"),
        (400, "italic"),
        (700, "normal"),
        (700, "italic"),
    ]
    for face in faces:
        assert face.file.read_bytes()[:4] == b"\0\1\0\0"  # TrueType, OpenType specification, "sfntVersion"
        assert face.file.name in screen_style()


def test_a_page_that_travels_alone_asks_for_no_font_file() -> None:
    assert "@font-face" not in screen_style("")


def luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.2."""
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize(
    ("word", "letters"), [("danger", "#ffffff"), ("warning", "#000000"), ("caution", "#000000"), ("notice", "#ffffff")]
)
def test_signal_words_can_be_read(word: str, letters: str) -> None:
    # WCAG 2.2 success criterion 1.4.3: at least 4.5 to 1. Letter colours by ANSI Z535.4 (from memory).
    ground = re.search(rf"--{word}: (#[0-9a-f]{{6}})", screen_style())
    assert ground
    light, dark = sorted((luminance(ground[1]), luminance(letters)), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5
    assert re.search(rf"\.signal-{word} \.signal-word {{ background: var\(--{word}\); color: {letters}", screen_style())
