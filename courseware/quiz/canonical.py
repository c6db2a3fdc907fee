"""One way to write a value as JSON bytes: sorted keys, UTF-8, no spaces, no NaN.

The same value gives the same bytes on every system, so that a form can be hashed and compared.
"""

import json
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from courseware.content.canonical import canonical

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


def canonical_bytes(value: "DataclassInstance") -> bytes:
    """Return a dataclass as canonical JSON, UTF-8.

    Parameters
    ----------
    value : dataclass
        Holds only text, whole numbers, flags, None, and tuples and mappings of these.

    Raises
    ------
    ValueError
        If it holds anything else.
    """
    return canonical(asdict(value))


def parsed(data: bytes) -> Any:
    """Return what JSON bytes say.

    Raises
    ------
    ValueError
        If they are not UTF-8 or not JSON.
    """
    return json.loads(data.decode("utf-8"))
