"""The heater's documents, loaded and held against each other."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.documents import Document
from courseware.content.problems import Problems
from courseware.heater.checks import Check
from courseware.heater.complaints import Complaint
from courseware.heater.faults import FaultMode, Repair
from courseware.heater.job import Job
from courseware.heater.unit import Unit

HEATER_KINDS: Final = ("unit", "faults", "repairs", "checks", "complaints", "job")


@dataclass(frozen=True, slots=True)
class Trade:
    """Everything the heater's documents say, by id."""

    units: Mapping[str, Unit]
    faults: Mapping[str, FaultMode]
    repairs: Mapping[str, Repair]
    checks: Mapping[str, Check]
    complaints: tuple[Complaint, ...]
    job: Job


def load_trade(documents: Iterable[Document], problems: Problems) -> Trade:
    """Load all heater documents; every fault found goes to ``problems``."""
    raise NotImplementedError
