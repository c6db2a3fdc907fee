"""Documents of checks and complaints read."""

from collections.abc import Iterable, Mapping

from courseware.content.documents import Document
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest, shown
from courseware.content.provenance import read_provenance
from courseware.content.words import say
from courseware.heater.amounts import read_amount
from courseware.heater.bands import check_bands, read_bands
from courseware.heater.checks import Band, Check, Condition
from courseware.heater.complaints import Complaint
from courseware.heater.job import NO, YES, Job
from courseware.heater.known import Known, read_arrangement, read_signal
from courseware.heater.readings import EVER
from courseware.heater.simulate import MOMENTS
from courseware.physics.units import UNITS, same_dimension


def load_checks(
    documents: Iterable[Document],
    known: Known,
    job: Job,
    problems: Problems,
) -> tuple[Check, ...]:
    """Read every document of kind ``checks``.

    Parameters
    ----------
    documents : iterable of Document
        All documents; those of other kinds are passed over.
    known : Known
        What the units have; every check must fit at least one of them, and its bands all it fits.
    job : Job
        The states that a check may need.
    problems : Problems
        Receives every fault found.
    """
    found = []
    for document in documents:
        if document.kind == "checks":
            fields = document.fields("checks", problems)
            for entry in fields.children("checks", "check"):
                entry.where = entry.where.removeprefix("checks, ")
                bands = read_bands(entry)
                check = _check(entry, known, job, tuple(bands))
                if _reads_its_unit(entry, check, known):
                    check_bands(entry, check, known, tuple(bands.values()))
                found.append(check)
            fields.finish()
    return tuple(found)


def _check(fields: Fields, known: Known, job: Job, bands: tuple[Band, ...]) -> Check:
    signal, _ = read_signal(fields, known)
    moment = fields.choice("moment", MOMENTS)
    unit = fields.choice("unit", UNITS - {""}, "")
    check = Check(
        id=fields.identifier(),
        title=fields.text("title"),
        asks=fields.text("asks"),
        tools=fields.texts("tools", required=False),
        hazards=fields.texts("hazards", required=False),
        minutes=fields.number("minutes", low=0.1, high=600),
        needs=_needs(fields, job),
        signal=signal,
        moment=moment,
        given=tuple(_condition(one, known, moment) for one in fields.children("given", "condition", required=False)),
        unit=unit,
        resolution=fields.number("resolution", 1.0),
        error=fields.number("error", 0.0),
        top=fields.number("top") if fields.has("top") else None,
        bands=bands,
        changes=read_arrangement(fields, known),
        cannot=fields.text("cannot"),
        strong=fields.flag("strong"),
        lesson=fields.text("lesson"),
        provenance=read_provenance(fields),
    )
    fields.finish()
    return check


def _reads_its_unit(fields: Fields, check: Check, known: Known) -> bool:
    """Say whether the signal can be read in the check's unit; record it if not."""
    if not check.signal or check.unit not in UNITS:
        return False
    signal_unit = known.signals[check.signal].unit
    if check.unit and not same_dimension(check.unit, signal_unit):
        found = say(
            "heater.wrong-unit", unit=check.unit, signal=check.signal, wants=signal_unit or say("heater.plain-number")
        )
        fits = [unit for unit in UNITS if unit and same_dimension(unit, signal_unit)]
        fields.fault(fields.source_of("unit"), found, listed(fits))
        return False
    return True


def _needs(fields: Fields, job: Job) -> Mapping[str, tuple[str, ...]]:
    """Read the states of the job that a check needs: each one value or a list of them."""
    needs = fields.child("needs", required=False)
    if needs is None:
        return {}
    allowed = {name: variable.values for name, variable in job.variables.items()} | dict.fromkeys(
        job.derived, (YES, NO)
    )
    found = {}
    for name in needs.entries():
        if name not in allowed:
            needs.fault(
                needs.source_of(name),
                say("heater.no-state", found=shown(name)),
                listed(allowed),
                nearest(name, allowed),
            )
            continue
        found[name] = needs.texts(name)
        for value in found[name]:
            if value not in allowed[name]:
                needs.fault(
                    needs.source_of(name), say("heater.no-state-value", state=name, found=shown(value)),
                    listed(allowed[name]), nearest(value, allowed[name]),
                )  # fmt: skip
    return found


def _condition(fields: Fields, known: Known, moment: str) -> Condition:
    signal, unit = read_signal(fields, known)
    edges: list[float | None] = []
    for key in ("low", "high"):
        if signal:
            edges.append(read_amount(fields, key, unit) if fields.has(key) else None)
        else:
            fields.node(key, required=False)  # asked for, so that it is not reported as unknown
            edges.append(None)
    fields.finish()
    return Condition(signal, moment, *edges)


def load_complaints(documents: Iterable[Document], known: Known, problems: Problems) -> tuple[Complaint, ...]:
    """Read every document of kind ``complaints``; their order is the order of matching."""
    found = []
    entries = []
    for document in documents:
        if document.kind == "complaints":
            fields = document.fields("complaints", problems)
            for entry in fields.children("complaints", "complaint"):
                entry.where = entry.where.removeprefix("complaints, ")
                found.append(_complaint(entry, known))
                entries.append(entry)
            fields.finish()
    for entry, complaint in zip(entries[:-1], found[:-1], strict=True):
        if not complaint.when:
            entry.fault(entry.source, say("heater.complaint-not-last"), advice=say("heater.complaint-not-last-try"))
    if found and found[-1].when:
        entries[-1].fault(
            entries[-1].source, say("heater.complaint-open-end"), advice=say("heater.complaint-open-end-try")
        )
    return tuple(found)


def _complaint(fields: Fields, known: Known) -> Complaint:
    complaint = Complaint(
        fields.identifier(), fields.text("title"), fields.text("says"),
        tuple(
            _condition(one, known, one.choice("moment", (*MOMENTS, EVER)))
            for one in fields.children("when", "condition", required=False)
        ),
        read_provenance(fields),
    )  # fmt: skip
    fields.finish()
    return complaint
