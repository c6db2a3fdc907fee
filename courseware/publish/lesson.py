"""Lessons: Markdown whose numbers are traced, whose blocks are data, and whose procedures have been carried out.

A lesson is a file in ``modules/`` of format ``courseware/lesson/1``. Its front matter has ``id``,
``title``, ``summary``, ``order``, ``minutes``, ``objectives``, ``numbers``, ``sources``, ``origin`` and optionally
``reviewed`` and ``reading_grade``. Its body is Markdown; a fenced code block is a lesson block of the
kind that its info string names. Loading checks everything a lesson says; showing it cannot fail.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from markdown_it.token import Token
from markupsafe import Markup

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.readability import count
from courseware.content.source import Source
from courseware.content.tree import parse_yaml
from courseware.content.words import say
from courseware.publish.blocks import BLOCK_KINDS
from courseware.publish.numbers import Number, read_numbers
from courseware.publish.pages import Imprint, render
from courseware.publish.prose import Prose, Writer, parser
from courseware.publish.teaching import Block, Reader, Teaching, View

LESSON_KINDS: Final = ("lesson",)
#: Highest reading grade [-] of a lesson that states none itself.
READING_GRADE: Final = 9.0
#: Level [-] of a lesson's highest headings; its title is level 1.
TOP_LEVEL: Final = 2


@dataclass(frozen=True, slots=True)
class Section:
    """One heading: its level [-] from 2, its anchor on the page, its words."""

    level: int
    anchor: str
    title: str
    source: Source


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson, checked.

    Attributes
    ----------
    id, title, summary : str
        Name in the data, in words, and what it is about.
    order, minutes : int
        Place in the course [-], and how long it takes [min].
    objectives : tuple of str
        Ids of the objectives it serves.
    numbers : mapping of name to Number
        Every number the text uses.
    sources : tuple of str
        What it rests on, for who wants to read further.
    pieces : tuple of Prose or Block
        The body, in order.
    sections : tuple of Section
        Its headings.
    grade : float
        Flesch-Kincaid grade [-] of all its text; nan if it has none.
    provenance : Provenance
        Origin and technical review.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    summary: str
    order: int
    minutes: int
    objectives: tuple[str, ...]
    numbers: Mapping[str, Number]
    sources: tuple[str, ...]
    pieces: tuple[Prose | Block, ...]
    sections: tuple[Section, ...]
    grade: float
    provenance: Provenance
    source: Source

    @property
    def anchors(self) -> frozenset[str]:
        """Return what ``lesson#section`` may name."""
        return frozenset(section.anchor for section in self.sections)


def load_lessons(documents: Iterable[Document], teaching: Teaching, problems: Problems) -> tuple[Lesson, ...]:
    """Read every lesson, evaluate its numbers, carry out its procedures.

    Parameters
    ----------
    documents : iterable of Document
        All content; those of kind ``lesson`` are read.
    teaching : Teaching
        What lessons refer to.
    problems : Problems
        Receives every fault found, each with the line of the lesson.

    Returns
    -------
    tuple of Lesson
        In the order of the course.
    """
    # In a bank with faults nothing can be simulated or carried out; the lessons' own words are checked all the same.
    sound = not len(problems)
    lessons = [_load(document, teaching, problems, sound=sound) for document in documents if document.kind == "lesson"]
    unique_ids((("lesson", lesson.id, lesson.source) for lesson in lessons), problems)
    return tuple(sorted(lessons, key=lambda lesson: (lesson.order, lesson.id)))


def _load(document: Document, teaching: Teaching, problems: Problems, *, sound: bool) -> Lesson:
    fields = document.fields("", problems)
    name = fields.identifier()
    fields.where = say("publish.lesson-where", id=name)
    title, summary = fields.text("title"), fields.text("summary")
    order, minutes = fields.integer("order", low=1), fields.integer("minutes", low=1)
    objectives = fields.references("objectives", "objective", teaching.objectives)
    numbers, sources = read_numbers(fields, teaching, sound=sound), fields.texts("sources")
    highest, provenance = fields.number("reading_grade", READING_GRADE), read_provenance(fields)
    fields.finish()
    writer = Writer(fields.where, {number.name: number.text for number in numbers.values()}, set(), problems)
    reader = Reader(teaching, writer, problems, sound)
    pieces, sections = _body(document, reader)
    for number in numbers.values():
        if number.name not in writer.used:
            fields.fault(
                number.source, say("publish.unused-number", name=number.name), advice=say("publish.unused-number-try")
            )
    grade = _grade(fields, pieces, highest)
    return Lesson(
        name,
        title,
        summary,
        order,
        minutes,
        objectives,
        numbers,
        sources,
        pieces,
        sections,
        grade,
        provenance,
        document.source,
    )


def _body(document: Document, reader: Reader) -> tuple[tuple[Prose | Block, ...], tuple[Section, ...]]:
    """Split the Markdown into prose and blocks."""
    pieces: list[Prose | Block] = []
    sections: list[Section] = []
    run: list[Token] = []
    tokens = parser().parse(document.body)
    for place, token in enumerate(tokens):
        source = Source(document.file, document.body_line + (token.map[0] if token.map else 0))
        if token.type == "heading_open":
            _heading(token, tokens[place + 1].content, source, sections, reader)
        if token.type != "fence":
            run.append(token)
            continue
        if token.level > 0:
            reader.problems.add(
                source, reader.writer.where, say("publish.block-inside"), say("publish.block-inside-allowed")
            )
            continue
        if run:
            pieces.append(reader.writer.tokens(run, document.file, document.body_line))
            run = []
        block = _block(token, source, reader)
        if block is not None:
            pieces.append(block)
    if run:
        pieces.append(reader.writer.tokens(run, document.file, document.body_line))
    if not pieces:
        reader.problems.add(document.source, reader.writer.where, say("publish.no-text"))
    return tuple(pieces), tuple(sections)


def _heading(token: Token, title: str, source: Source, sections: list[Section], reader: Reader) -> None:
    """Give a heading its anchor, and hold it to the order that a reader by ear relies on."""
    level, anchor = int(token.tag[1]), slug(title)
    where, problems = reader.writer.where, reader.problems
    deepest = sections[-1].level + 1 if sections else TOP_LEVEL
    if not TOP_LEVEL <= level <= deepest:
        problems.add(
            source,
            where,
            say("publish.heading-level", level=level),
            say("publish.heading-level-allowed", deepest=deepest),
        )
    if any(section.anchor == anchor for section in sections):
        problems.add(
            source, where, say("publish.heading-twice", anchor=anchor), advice=say("publish.heading-twice-try")
        )
    token.attrSet("id", anchor)
    sections.append(Section(level, anchor, title, source))


def slug(title: str) -> str:
    """Return the anchor of a heading.

    Examples
    --------
    >>> slug("What you do before you look: the siphon unit")
    'what-you-do-before-you-look-the-siphon-unit'
    """
    return "-".join(re.findall(r"[a-z0-9]+", title.lower()))


def _block(token: Token, source: Source, reader: Reader) -> Block | None:
    """Read one fenced block; its YAML starts on the line after the fence."""
    kind = token.info.strip()
    if kind not in BLOCK_KINDS:
        reader.problems.add(
            source,
            reader.writer.where,
            say("publish.block-kind", found=kind),
            listed(BLOCK_KINDS),
            nearest(kind, BLOCK_KINDS),
        )
        return None
    if not token.content.strip():
        reader.problems.add(source, reader.writer.where, say("publish.block-empty", kind=kind))
        return None
    node = parse_yaml(token.content, source.file, reader.problems, source.line + 1)
    if node is None:
        return None
    fields = Fields(node, say("publish.block-where", lesson=reader.writer.where, kind=kind), reader.problems)
    block = BLOCK_KINDS[kind](fields, reader)
    fields.finish()
    return block


def _grade(fields: Fields, pieces: Sequence[Prose | Block], highest: float) -> float:
    """Return the reading grade of all text; above the highest allowed it is a problem."""
    texts = [prose.plain for piece in pieces for prose in ((piece,) if isinstance(piece, Prose) else piece.prose)]
    try:
        grade = count("\n".join(texts)).grade
    except ValueError:
        return float("nan")
    if grade > highest:
        fields.fault(
            fields.source,
            say("publish.reads-hard", grade=f"{grade:.1f}"), say("publish.reads-hard-allowed", highest=highest),
            say("publish.reads-hard-try"),
        )  # fmt: skip
    return grade


def render_lesson(
    lesson: Lesson, teaching: Teaching, imprint: Imprint, *, paper: bool = False, root: str = "../"
) -> str:
    """Return a lesson as a page.

    Parameters
    ----------
    lesson : Lesson
        From :func:`load_lessons` without problems.
    teaching : Teaching
        The same as at loading.
    imprint : Imprint
        The course.
    paper : bool
        True for the page that becomes a PDF: nothing folds, answers stand at the end.
    root : str
        Way from the page to the folder of the stylesheet.
    """
    view = View(paper)
    pieces: list[Markup] = [piece.html if isinstance(piece, Prose) else piece.html(view) for piece in lesson.pieces]
    answers = [piece.answers for piece in lesson.pieces if not isinstance(piece, Prose) and piece.answers]
    objectives = [teaching.objectives[name] for name in lesson.objectives]
    return render(
        "lesson.html.j2", imprint, title=lesson.title, lesson=lesson, view=view, pieces=pieces, answers=answers,
        objectives=objectives, paper=paper, root=root,
    )  # fmt: skip
