"""What can go wrong with the records: one class a failure, each with what to try.

::

    RecordsError
    ├── StoreError              the file cannot be used as records; nothing was changed
    │   ├── UnusableStoreError
    │   ├── ForeignFileError
    │   ├── NewerStoreError
    │   └── BusyStoreError
    ├── KeyFileError            a key or the company secret cannot be read or written
    ├── HeadFileError           a saved chain head cannot be read, or must not be overwritten
    ├── CodeError               a text is not a certificate's code
    ├── EntryRefusedError       the rules of the records refuse this entry; nothing was written
    │   └── NotCertifiedError   ... because the person may not be certified, with every reason
    └── BadEventError           a stored or exported event is not what was signed
"""

from courseware.content.refusal import Refusal
from courseware.content.words import say


class RecordsError(Refusal):
    """The root: a message from the catalogue, and beside it what to try.

    Parameters
    ----------
    key : str
        Key of the message in ``records.toml``; ``<key>-try`` is its advice.
    values : object
        Values for the fields of both.
    """

    def __init__(self, key: str, /, **values: object) -> None:
        self.key = key
        self.message = say(f"records.{key}", **values)
        self.advice = say(f"records.{key}-try", **values)
        super().__init__(self.message, self.advice)

    def __str__(self) -> str:
        return with_advice(self.message, self.advice)


def with_advice(message: str, advice: str) -> str:
    """Return a message with its advice on the next line."""
    return f"{message}\n    {say('content.try', advice=advice)}"


class StoreError(RecordsError):
    """The file cannot be used as records; nothing was changed."""


class UnusableStoreError(StoreError):
    """There is no file of that name, or the system does not let us use it."""


class ForeignFileError(StoreError):
    """The file is something else, or damaged beyond reading."""


class NewerStoreError(StoreError):
    """A newer version of this program has worked on the file."""


class BusyStoreError(StoreError):
    """Another program holds the file for longer than we wait."""


class KeyFileError(RecordsError):
    """A signing key or the company secret cannot be read or written."""


class HeadFileError(RecordsError):
    """A saved chain head cannot be read, or must not be overwritten."""


class CodeError(RecordsError):
    """The text is not a certificate's code: somebody mistyped it."""


class EntryRefusedError(RecordsError):
    """The rules of the records refuse this entry; nothing was written."""


class BadEventError(RecordsError):
    """An event is not what was signed.

    Parameters
    ----------
    seq : int or None
        Number [-] of the first bad event; none if no event is to blame.
    key, values
        As in :class:`RecordsError`.
    """

    def __init__(self, seq: int | None, key: str, /, **values: object) -> None:
        super().__init__(key, seq=seq, **values)
        self.seq = seq
