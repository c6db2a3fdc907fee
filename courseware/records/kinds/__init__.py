"""The kinds of event: what each says, and how it changes the projections.

This is the whole law of the records. :func:`apply` is used when an event is appended, when the chain is
verified, and when the projections are rebuilt; a rule stands here once. A kind is an entry in one of the
modules of this package, and in :data:`EVENT_KINDS`.
"""

from collections.abc import Mapping
from typing import Final

from courseware.content.problems import listed
from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds import certificates, company, evidence, forms, people, results, signers, signoffs
from courseware.records.kinds.base import EventKind, active_signer

EVENT_KINDS: Final[Mapping[str, EventKind]] = {
    kind.name: kind
    for kind in (
        company.BEGUN,
        company.CLOCK_CORRECTED,
        people.ENROLLED,
        people.CORRECTED,
        people.MERGED,
        people.ERASED,
        signers.ADDED,
        signers.RETIRED,
        forms.ISSUED,
        forms.RECEIVED,
        forms.VOIDED,
        results.RECORDED,
        signoffs.SIGNED_OFF,
        signoffs.WITHDRAWN,
        evidence.ENTERED,
        evidence.WITHDRAWN,
        certificates.GRANTED,
        certificates.WITHDRAWN,
    )
}


def apply(event: Event, book: Book) -> None:
    """Change the projections as an event says.

    Parameters
    ----------
    event : Event
        With its seal already verified, or about to be sealed.
    book : Book
        The projections as all events before it left them.

    Raises
    ------
    EntryRefusedError
        If the kind is unknown, a field is missing, unknown or of the wrong shape, the signer is not
        active, or the kind's own rule is broken. The book may then be half changed: the caller throws it away.
    """
    kind = EVENT_KINDS.get(event.kind)
    if kind is None:
        raise EntryRefusedError("unknown-kind", kind=event.kind, known=listed(EVENT_KINDS))
    kind.hold_shape(event)
    if kind is company.BEGUN:
        if event.seq != 1:
            raise EntryRefusedError("already-begun")
    elif event.seq == 1:
        raise EntryRefusedError("not-begun")
    else:
        active_signer(event.signer, book)
    kind.change(event, book)
