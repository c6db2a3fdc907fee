"""One value, one text: the JSON that is hashed and signed.

The form is that of RFC 8785 (JSON Canonicalization Scheme) for the values of forms, keys and records: keys
sorted, no spaces, UTF-8, control characters escaped the short way. Where RFC 8785 needs care,
the values use nothing: numbers are whole and within 2^53 - 1, and keys are ASCII, so that sorting by
code point and by UTF-16 unit agree.
"""

import json
from typing import Any, Final

LARGEST: Final = 2**53 - 1
"""Largest whole number [-] that every JSON reader keeps exactly (RFC 7493, section 2.2)."""


def canonical(value: object) -> bytes:
    """Return the one text of a value.

    Parameters
    ----------
    value : object
        Text, whole number, true, false, none, and lists and mappings of these.

    Returns
    -------
    bytes
        UTF-8, no byte-order mark, no line end.

    Raises
    ------
    ValueError
        If the value holds anything else, such as a float: its text would depend on the reader.

    Examples
    --------
    >>> canonical({"seq": 1, "event": "issued", "who": "T-001"})
    b'{"event":"issued","seq":1,"who":"T-001"}'
    """
    _hold(value)
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return text.encode("utf-8")  # a lone surrogate is a UnicodeEncodeError here, which is a ValueError


def read_canonical(data: bytes) -> Any:
    """Return the value of a canonical text.

    Raises
    ------
    ValueError
        If the bytes are not JSON, or are not the one text of their value: another order of keys, a
        repeated key, a space, an escape that is not needed.
    """
    value = json.loads(data.decode("utf-8"))
    if canonical(value) != data:
        raise ValueError("not in canonical form")
    return value


def _hold(value: object) -> None:
    match value:
        case None | bool() | str():
            return
        case int():
            if abs(value) > LARGEST:
                raise ValueError(f"{value} is beyond 2^53 - 1")
        case dict():
            for key, inner in value.items():
                if not isinstance(key, str) or not key.isascii():
                    raise ValueError(f"{key!r} is not an ASCII key")
                _hold(inner)
        case list() | tuple():
            for inner in value:
                _hold(inner)
        case _:
            raise ValueError(f"{type(value).__name__} has no canonical form")
