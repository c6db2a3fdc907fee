"""Where a piece of content comes from, and who reviewed it: every fault, check, rule and lesson carries both."""

from dataclasses import dataclass
from datetime import date

from courseware.content.fields import Fields
from courseware.content.problems import shown
from courseware.content.source import Source
from courseware.content.words import say


@dataclass(frozen=True, slots=True)
class Provenance:
    """Origin and technical review of one piece of content.

    Attributes
    ----------
    origin : str
        The document it rests on, or "common practice, no source".
    reviewed_by : str
        The licensed technician who signed it off; empty if nobody has.
    reviewed_on : str
        Date of that review, ISO 8601; empty if there was none.
    source : Source
        Where the content is written.
    """

    origin: str
    reviewed_by: str
    reviewed_on: str
    source: Source

    @property
    def reviewed(self) -> bool:
        """Say whether a technician has signed it off."""
        return bool(self.reviewed_by)

    def status(self) -> str:
        """Return the review status in words."""
        if self.reviewed:
            return say("content.reviewed", by=self.reviewed_by, on=self.reviewed_on)
        return say("content.not-reviewed")


def read_provenance(fields: Fields) -> Provenance:
    """Read the keys ``origin`` (required) and ``reviewed: {by, on}`` (optional) of a thing."""
    origin = fields.text("origin")
    by = on = ""
    review = fields.child("reviewed", required=False)
    if review is not None:
        by, on = review.text("by"), review.text("on")
        if on and not _is_date(on):
            review.fault(
                review.source_of("on"), say("content.bad-date", key="on", found=shown(on)), say("content.a-date")
            )
        review.finish()
    return Provenance(origin, by, on, fields.source)


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
