"""Complaints as customers say them: the first whose conditions the run meets is the one that is told."""

from dataclasses import dataclass

from courseware.content.provenance import Provenance
from courseware.heater.checks import Condition


@dataclass(frozen=True, slots=True)
class Complaint:
    """One complaint.

    Attributes
    ----------
    id, title, says : str
        How it is referred to and called, and the customer's words.
    when : tuple of Condition
        All must hold; empty: it matches every run.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    says: str
    when: tuple[Condition, ...]
    provenance: Provenance
