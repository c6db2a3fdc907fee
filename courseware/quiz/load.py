"""Objectives, misconceptions, item templates and blueprints from their documents."""

from collections.abc import Iterable, Mapping
from typing import Final

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.provenance import read_provenance
from courseware.content.source import Source
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.bank import Blueprint, Draw, Objective, QuizBank, Template
from courseware.quiz.form import PassRule
from courseware.quiz.kinds import ITEM_KINDS
from courseware.quiz.misconceptions import Misconception, read_misconceptions
from courseware.quiz.pools import POOLS
from courseware.safework.model import SafeWork

QUIZ_KINDS: Final = ("objectives", "items", "blueprint", "misconceptions")


def load_quiz(documents: Iterable[Document], trade: Trade, safework: SafeWork, problems: Problems) -> QuizBank:
    """Load the question bank.

    Parameters
    ----------
    documents : iterable of Document
        All documents; those of other kinds are passed over.
    trade, safework : Trade, SafeWork
        What the templates refer to.
    problems : Problems
        Receives every fault found.
    """
    of_kind: dict[str, list[Document]] = {kind: [] for kind in QUIZ_KINDS}
    for document in documents:
        if document.kind in of_kind:
            of_kind[document.kind].append(document)
    objectives = [one for document in of_kind["objectives"] for one in _objectives(document, problems)]
    known = {objective.id for objective in objectives}
    templates = [one for document in of_kind["items"] for one in _templates(document, known, trade, safework, problems)]
    by_id = {template.id: template for template in templates}
    blueprints = [_blueprint(document, by_id, problems) for document in of_kind["blueprint"]]
    found = [(say("quiz.an-objective"), one.id, one.provenance.source) for one in objectives]
    found += [(say("quiz.a-template"), one.id, one.provenance.source) for one in templates]
    found += [(say("quiz.a-blueprint"), one.id, one.provenance.source) for one in blueprints]
    misconceptions = read_misconceptions(of_kind["misconceptions"], problems)
    found += [(say("quiz.a-misconception"), one.id, one.provenance.source) for one in misconceptions]
    unique_ids(found, problems)
    _hold_pools_apart(templates, problems)
    catalogue = {one.id: one for one in misconceptions}
    _hold_named(templates, catalogue, problems)
    return QuizBank(
        {objective.id: objective for objective in objectives}, by_id, {one.id: one for one in blueprints}, catalogue
    )


def _objectives(document: Document, problems: Problems) -> Iterable[Objective]:
    top = document.fields("", problems)
    for fields in top.children("objectives", say("quiz.an-objective")):
        yield Objective(fields.identifier(), fields.text("title"), fields.text("lesson"), read_provenance(fields))
        fields.finish()
    top.finish()


def _templates(
    document: Document, objectives: set[str], trade: Trade, safework: SafeWork, problems: Problems
) -> Iterable[Template]:
    top = document.fields("", problems)
    for fields in top.children("items", say("quiz.a-template")):
        kind = fields.choice("kind", ITEM_KINDS)
        common = Template(
            id=fields.identifier(),
            kind=kind,
            pool=fields.choice("pool", POOLS),
            objective=fields.reference("objective", say("quiz.an-objective"), objectives),
            points=fields.integer("points", 1, low=1),
            minutes=fields.integer("minutes", low=1),
            lesson=fields.text("lesson"),
            body=None,
            provenance=read_provenance(fields),
        )
        if kind in ITEM_KINDS:
            yield _with_body(common, fields, trade, safework)
    top.finish()


def _with_body(common: Template, fields: Fields, trade: Trade, safework: SafeWork) -> Template:
    body = ITEM_KINDS[common.kind].load(fields, trade, safework)
    fields.finish()
    return Template(
        common.id, common.kind, common.pool, common.objective, common.points, common.minutes, common.lesson, body,
        common.provenance,
    )  # fmt: skip


def _blueprint(document: Document, templates: Mapping[str, Template], problems: Problems) -> Blueprint:
    fields = document.fields(say("quiz.a-blueprint"), problems)
    blueprint_id = fields.identifier()
    fields.where = f"{say('quiz.a-blueprint')} '{blueprint_id}'"
    pool = fields.choice("pool", POOLS)
    passing = fields.child("pass")
    rule = PassRule(100, safety_gate=True)
    if passing is not None:
        rule = PassRule(passing.integer("percent", low=1, high=100), passing.flag("safety_gate"))
        passing.finish()
    blueprint = Blueprint(
        blueprint_id,
        fields.text("title"),
        pool,
        fields.texts("instructions"),
        rule,
        tuple(_draw(child, pool, templates) for child in fields.children("draws", say("quiz.a-draw"))),
        read_provenance(fields),
    )
    fields.finish()
    return blueprint


def _draw(fields: Fields, pool: str, templates: Mapping[str, Template]) -> Draw:
    named = fields.references("templates", say("quiz.a-template"), templates)
    for name in named:
        if name in templates and templates[name].pool != pool:
            fields.fault(
                fields.source_of("templates"),
                say("quiz.wrong-pool", template=name, found=templates[name].pool, pool=pool),
                advice=say("quiz.wrong-pool-try"),
            )
    draw = Draw(named, fields.integer("items", low=1))
    claims = [templates[name].claims() for name in named if name in templates]
    held = frozenset().union(*(claimed for claimed in claims if claimed is not None))
    if len(claims) == len(named) and None not in claims and len(held) < draw.items:
        fields.fault(
            fields.source_of("items"),
            say("quiz.too-few-questions", items=draw.items, held=len(held)),
            advice=say("quiz.too-few-questions-try"),
        )
    fields.finish()
    return draw


def _hold_named(templates: Iterable[Template], catalogue: Mapping[str, Misconception], problems: Problems) -> None:
    """Record a problem for every misconception that an item names and the catalogue does not have."""
    for template in templates:
        names = template.behaviour.named
        for one in names(template.body) if names is not None else ():
            if one.id not in catalogue:
                problems.add(
                    one.source,
                    f"{say('quiz.a-template')} '{template.id}'",
                    say(
                        "content.unknown-reference", key="misconception", kind=say("quiz.a-misconception"), found=one.id
                    ),
                    listed(catalogue),
                    nearest(one.id, catalogue),
                )


def _hold_pools_apart(templates: Iterable[Template], problems: Problems) -> None:
    """Record a problem for every listed question that is in both pools."""
    first: dict[str, tuple[str, str, Source]] = {}
    for template in templates:
        for identity in sorted(template.claims() or ()):
            known = first.setdefault(identity, (template.id, template.pool, template.provenance.source))
            if known[1] != template.pool:
                problems.add(
                    template.provenance.source,
                    f"{say('quiz.a-template')} '{template.id}'",
                    say("quiz.in-both-pools", question=identity.partition("|")[2], other=known[0], at=known[2]),
                    advice=say("quiz.in-both-pools-try"),
                )
