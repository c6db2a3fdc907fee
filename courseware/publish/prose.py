"""Prose: Markdown in which every number has a name.

A number in a lesson is written ``{name}``, and the lesson's front matter says how it is computed or
where it was read. A digit anywhere else in the text is a fault, so that a lesson cannot quietly say
something that nobody can trace.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

from courseware.content.problems import Problems, listed, nearest
from courseware.content.source import Source
from courseware.content.words import say

#: A named number in the text.
NAME: Final = re.compile(r"\{([a-z][a-z0-9-]*)\}")
#: Digits, and the fractions that are one character.
BARE: Final = re.compile(r"[\d¼½¾⅛⅜⅝⅞][\d.,/]*(?<![.,])")
#: Markdown that would escape the rules of this module, or that a page cannot show to everyone.
_REFUSED: Final = ("code_block", "html_block", "html_inline", "image", "code_inline")


@dataclass(frozen=True, slots=True)
class Prose:
    """A piece of text, ready to show.

    Attributes
    ----------
    html : Markup
        Its HTML.
    plain : str
        Its words alone, one line a paragraph, for the reading level.
    """

    html: Markup
    plain: str


@cache
def parser() -> MarkdownIt:
    """Return the Markdown parser of lessons, made once: CommonMark with tables, and no raw HTML."""
    return MarkdownIt("commonmark", {"html": False}).enable("table")


@dataclass(frozen=True, slots=True)
class Writer:
    """Turns Markdown of one lesson into prose.

    Attributes
    ----------
    where : str
        The lesson, by id, for messages.
    numbers : mapping of name to str
        How each named number is written.
    used : set of str
        Receives the name of every number that the text uses.
    problems : Problems
        Receives every bare digit, unknown name and refused piece of Markdown.
    """

    where: str
    numbers: Mapping[str, str]
    used: set[str]
    problems: Problems

    def paragraphs(self, text: str, source: Source) -> Prose:
        """Return text of one or more paragraphs or lists."""
        return self.tokens(parser().parse(text), source.file, source.line)

    def line(self, text: str, source: Source) -> Prose:
        """Return text that is part of a line: no paragraph around it."""
        return self.tokens(parser().parseInline(text), source.file, source.line)

    def tokens(self, tokens: Sequence[Token], file: str, first_line: int) -> Prose:
        """Fill the numbers into parsed Markdown and render it.

        Parameters
        ----------
        tokens : sequence of Token
            As parsed; the text in them is changed.
        file : str
            Where they were written.
        first_line : int
            Line number [-] in the file of the parsed text's first line.
        """
        plain = []
        for token in tokens:
            line = first_line + (token.map[0] if token.map else 0)
            self._refuse(token, Source(file, line))
            if token.type == "inline":
                plain.append(self._fill(token.children or (), file, line))
        made = parser()
        return Prose(Markup(made.renderer.render(tokens, made.options, {})), "\n".join(plain))  # noqa: S704 - the renderer escapes

    def _fill(self, children: Iterable[Token], file: str, line: int) -> str:
        plain = []
        for child in children:
            self._refuse(child, Source(file, line))
            if child.type in ("softbreak", "hardbreak"):
                line += 1
                plain.append(" ")
            elif child.type == "text":
                child.content = self._filled(child.content, Source(file, line))
                plain.append(child.content)
        return "".join(plain)

    def _filled(self, text: str, source: Source) -> str:
        for bare in BARE.finditer(NAME.sub("", text)):
            self._fault(
                source, say("publish.bare-number", number=bare[0]), say("publish.bare-number-allowed"),
                say("publish.bare-number-try"),
            )  # fmt: skip
        for name in NAME.findall(text):
            self.used.add(name)
            if name not in self.numbers:
                self._fault(
                    source, say("publish.unknown-number", name=name), listed(self.numbers), nearest(name, self.numbers)
                )
        return NAME.sub(lambda match: self.numbers.get(match[1], match[0]), text)

    def _refuse(self, token: Token, source: Source) -> None:
        if token.type in _REFUSED:
            self._fault(
                source, say(f"publish.refused-{token.type.replace('_', '-')}"), say("publish.refused-allowed"),
                say("publish.refused-try"),
            )  # fmt: skip

    def _fault(self, source: Source, found: str, allowed: str, advice: str = "") -> None:
        self.problems.add(source, self.where, found, allowed, advice)
