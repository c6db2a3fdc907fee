"""Documents of repairs and faults read."""

from collections.abc import Collection, Iterable

from courseware.content.documents import Document
from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.provenance import read_provenance
from courseware.content.words import say
from courseware.heater.faults import FaultMode, Repair
from courseware.heater.known import Known, read_fault_changes


def load_repairs(documents: Iterable[Document], problems: Problems) -> tuple[Repair, ...]:
    """Read every document of kind ``repairs``."""
    return tuple(
        _repair(fields)
        for document in documents
        if document.kind == "repairs"
        for fields in _entries(document, "repairs", "repair", problems)
    )


def load_faults(
    documents: Iterable[Document], repairs: Collection[str], known: Known, problems: Problems
) -> tuple[FaultMode, ...]:
    """Read every document of kind ``faults``.

    Parameters
    ----------
    documents : iterable of Document
        All documents; those of other kinds are passed over.
    repairs : collection of str
        Ids of the repairs.
    known : Known
        What the units have; every fault must fit at least one of them.
    problems : Problems
        Receives every fault found.
    """
    return tuple(
        _fault(fields, repairs, known)
        for document in documents
        if document.kind == "faults"
        for fields in _entries(document, "faults", "fault", problems)
    )


def _entries(document: Document, key: str, kind: str, problems: Problems) -> tuple[Fields, ...]:
    fields = document.fields(key, problems)
    entries = tuple(fields.children(key, kind))
    for entry in entries:
        entry.where = entry.where.removeprefix(f"{key}, ")
    fields.finish()
    return entries


def _repair(fields: Fields) -> Repair:
    repair = Repair(
        fields.identifier(), fields.text("title"), fields.number("minutes", low=1, high=600), fields.text("lesson"),
        read_provenance(fields),
    )  # fmt: skip
    fields.finish()
    return repair


def _fault(fields: Fields, repairs: Collection[str], known: Known) -> FaultMode:
    fault = FaultMode(
        id=fields.identifier(),
        title=fields.text("title"),
        repair=fields.reference("repair", "repair", repairs),
        changes=read_fault_changes(fields, known),
        severities=fields.numbers("severities"),
        odds=fields.number("odds"),
        danger=fields.text("danger", ""),
        latent=fields.text("latent", ""),
        provenance=read_provenance(fields),
    )
    fields.finish()
    for severity in fault.severities:
        if not 0.0 < severity <= 1.0:
            fields.fault(
                fields.source_of("severities"), say("heater.no-severity", found=f"{severity:g}"),
                say("heater.no-severity-allowed"),
            )  # fmt: skip
    if fields.has("odds") and fault.odds <= 0.0:
        fields.fault(
            fields.source_of("odds"), say("heater.no-odds", found=f"{fault.odds:g}"), say("heater.no-odds-allowed")
        )
    sound = all(known.has_target(change) for change in fault.changes)
    if sound and fault.changes and not any(fault.applies_to(unit) for unit in known.units):
        fields.fault(fields.source_of("changes"), say("heater.fits-nowhere"))
    return fault
