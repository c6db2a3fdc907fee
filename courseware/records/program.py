"""Certificate programs: what a person must have passed, for how long the certificate is good."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.source import Source
from courseware.content.words import say
from courseware.records.shapes import TEXT

PROGRAM_KINDS: Final = ("program",)
LONGEST_MONTHS: Final = 120


@dataclass(frozen=True, slots=True)
class Program:
    """A certificate program.

    Attributes
    ----------
    id, title : str
        What it is called.
    scope : tuple of str
        What the holder has shown, a sentence each, as printed on the certificate.
    blueprints : tuple of str
        Ids of the quiz blueprints to be passed, each under supervision.
    valid_months : int
        How long the certificate is good [months].
    result_months : int
        How old a result may be when the certificate is granted [months].
    review_required : bool
        Whether everything in the course must have been reviewed by a licensed technician.
    provenance : Provenance
        Origin and review of these rules.
    source : Source
        Where it is written.
    signoffs : tuple of str
        Ids of the procedures that a signer must have seen the person carry out on a real unit.
    quizzes_by_evidence, signoffs_by_evidence : tuple of str
        Those of the quizzes and of the procedures that evidence of earlier training or work may stand for; by
        default none.
    energy_control : tuple of str
        Quizzes and procedures of the course that train in the control of hazardous energy: the training list of
        29 CFR 1910.147(c)(7)(iv) has them.
    """

    id: str
    title: str
    scope: tuple[str, ...]
    blueprints: tuple[str, ...]
    valid_months: int
    result_months: int
    review_required: bool
    provenance: Provenance
    source: Source
    signoffs: tuple[str, ...] = ()
    quizzes_by_evidence: tuple[str, ...] = ()
    signoffs_by_evidence: tuple[str, ...] = ()
    energy_control: tuple[str, ...] = ()


def load_programs(
    documents: Iterable[Document], blueprint_ids: Collection[str], procedure_ids: Collection[str], problems: Problems
) -> Mapping[str, Program]:
    """Read every program.

    Parameters
    ----------
    documents : iterable of Document
        Of any kind; those of :data:`PROGRAM_KINDS` are read.
    blueprint_ids, procedure_ids : collection of str
        The blueprints and the procedures that there are.
    problems : Problems
        Receives every fault found.
    """
    programs = []
    for document in documents:
        if document.kind in PROGRAM_KINDS:
            fields = document.fields(say("records.programs"), problems)
            programs += [
                _program(child, blueprint_ids, procedure_ids)
                for child in fields.children("programs", say("records.program"))
            ]
            fields.finish()
    unique_ids(((say("records.program"), program.id, program.source) for program in programs), problems)
    return {program.id: program for program in programs}


def _program(fields: Fields, blueprint_ids: Collection[str], procedure_ids: Collection[str]) -> Program:
    valid_months = fields.integer("valid-months", low=1, high=LONGEST_MONTHS)
    blueprints = fields.references("blueprints", say("records.blueprint"), blueprint_ids)
    signoffs = fields.references("signoffs", say("records.procedure"), procedure_ids, required=False)
    program = Program(
        id=fields.identifier(),
        title=fields.text("title"),
        scope=fields.texts("scope"),
        blueprints=blueprints,
        valid_months=valid_months,
        result_months=fields.integer("result-months", valid_months, low=1, high=LONGEST_MONTHS),
        review_required=fields.flag("review-required"),
        provenance=read_provenance(fields),
        source=fields.source,
        signoffs=signoffs,
        quizzes_by_evidence=fields.references(
            "quizzes-by-evidence", say("records.blueprint-asked"), blueprints, required=False
        ),
        signoffs_by_evidence=fields.references(
            "signoffs-by-evidence", say("records.procedure-asked"), signoffs, required=False
        ),
        energy_control=fields.references(
            "energy-control", say("records.training"), {*blueprint_ids, *procedure_ids}, required=False
        ),
    )
    _hold_printed(fields, "title", program.title)
    for sentence, source in fields.located_texts("scope", required=False):
        _hold_printed(fields, "scope", sentence, source)
    fields.finish()
    return program


def _hold_printed(fields: Fields, key: str, text: str, source: Source | None = None) -> None:
    """Hold a text that will stand in an event to what an event may hold; an empty one is told of already."""
    if text and not TEXT.holds(text):
        fields.fault(source or fields.source_of(key), say("records.program-text", key=key), say("records.a-text"))
