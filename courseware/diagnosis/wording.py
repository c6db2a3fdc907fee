"""Readings, repairs and premises in the trade's words, as messages and explanations print them."""

from collections.abc import Iterable, Mapping

from courseware.content.words import say
from courseware.diagnosis.signatures import COMPLAINT, Signatures


def outcome_words(signatures: Signatures, check_id: str, outcome: str) -> str:
    """Return what an outcome of a check means, or what the customer says."""
    if check_id == COMPLAINT:
        return signatures.said[outcome].says.removesuffix(".")
    check = signatures.check(check_id)
    return next((band.says for band in check.bands if band.id == outcome), check.cannot)


def reading_words(signatures: Signatures, check_id: str, outcome: str, values: Mapping[str, str] | None = None) -> str:
    """Return a reading as it stands on the sheet: title, value if there is one, meaning.

    Parameters
    ----------
    signatures : Signatures
        Holds the checks and complaints.
    check_id, outcome : str
        The reading; of a complaint the bare words are returned.
    values : mapping of check id to str, optional
        The value read, as shown ("8.5 kV"), for those checks that have one.
    """
    words = outcome_words(signatures, check_id, outcome)
    if check_id == COMPLAINT:
        return words
    title, value = signatures.check(check_id).title, (values or {}).get(check_id, "")
    key = "diagnosis.reading" if value in ("", words) else "diagnosis.reading-with-value"
    return say(key, title=title, value=value, words=lowered(words))


def lowered(words: str) -> str:
    """Return words that start a sentence as they stand inside one; an abbreviation stays as it is.

    Examples
    --------
    >>> lowered("Gap too wide"), lowered("CO in the room")
    ('gap too wide', 'CO in the room')
    """
    return words if words[1:2].isupper() else words[:1].lower() + words[1:]


def repair_titles(signatures: Signatures, repairs: Iterable[str]) -> str:
    """Return the titles of some repairs as a list for a sentence."""
    return say("diagnosis.list-joint").join(quoted(signatures, repair) for repair in repairs)


def quoted(signatures: Signatures, repair: str) -> str:
    """Return the title of a repair, marked as such for a sentence."""
    return say("diagnosis.repair", title=signatures.space.repairs[repair].title)
