"""The heater's documents, loaded and held against each other."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.documents import Document, unique_ids
from courseware.content.problems import Problems
from courseware.heater.checks import Check
from courseware.heater.complaints import Complaint
from courseware.heater.faults import FaultMode, Repair
from courseware.heater.job import Job, check_job, load_job
from courseware.heater.known import LimitUnits, known_of
from courseware.heater.load_checks import load_checks, load_complaints
from courseware.heater.load_faults import load_faults, load_repairs
from courseware.heater.load_units import load_units
from courseware.heater.unit import Unit

HEATER_KINDS: Final = ("unit", "faults", "repairs", "checks", "complaints", "job")


@dataclass(frozen=True, slots=True)
class Trade:
    """Everything the heater's documents say.

    Attributes
    ----------
    units, faults, repairs, checks : Mapping
        By id.
    complaints : tuple of Complaint
        In the order of matching.
    job : Job
        The states of the job.
    """

    units: Mapping[str, Unit]
    faults: Mapping[str, FaultMode]
    repairs: Mapping[str, Repair]
    checks: Mapping[str, Check]
    complaints: tuple[Complaint, ...]
    job: Job


def load_trade(documents: Iterable[Document], problems: Problems) -> Trade:
    """Load all heater documents.

    Parameters
    ----------
    documents : iterable of Document
        All documents of the course; those of other kinds are passed over.
    problems : Problems
        Receives every fault found; nothing loaded may be used if there is one.

    Returns
    -------
    Trade
        What was read.
    """
    documents = tuple(documents)
    limit_units: LimitUnits = {}
    units = load_units(documents, problems, limit_units)
    known = known_of(units, limit_units)
    repairs = load_repairs(documents, problems)
    faults = load_faults(documents, [repair.id for repair in repairs], known, problems)
    job = load_job(documents, problems)
    checks = load_checks(documents, known, job, problems)
    complaints = load_complaints(documents, known, problems)
    things = (("unit", units), ("repair", repairs), ("fault", faults), ("check", checks), ("complaint", complaints))
    unique_ids(((kind, one.id, one.provenance.source) for kind, found in things for one in found), problems)
    trade = Trade(
        units={unit.id: unit for unit in units},
        faults={fault.id: fault for fault in faults},
        repairs={repair.id: repair for repair in repairs},
        checks={check.id: check for check in checks},
        complaints=complaints,
        job=job,
    )
    check_job(job, trade.units, problems)
    return trade
