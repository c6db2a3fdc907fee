"""What a word without quotes means: the core schema of YAML 1.2.

YAML 1.1, which most libraries still follow, reads ``on``, ``off``, ``yes``, ``12:30`` and dates as something else
than text. Here ``on`` and ``off`` are the states of a switch and must stay words.
"""

import re
from typing import Final

_NULL: Final = frozenset({"", "~", "null", "Null", "NULL"})
_FLAGS: Final = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_INTEGER: Final = re.compile(r"[-+]?[0-9]+")
_OCTAL_OR_HEXADECIMAL: Final = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_NUMBER: Final = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_INFINITY_OR_NOT_A_NUMBER: Final = re.compile(r"[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")
# Longer whole numbers measure nothing in this trade, and Python refuses to convert them past 4300 digits.
_LONGEST_INTEGER: Final = 18

TypeOfScalar = str | int | float | bool | None


def resolve(text: str) -> TypeOfScalar:
    """Return the value of a plain scalar.

    Parameters
    ----------
    text : str
        The scalar as the author wrote it, without quotes.

    Returns
    -------
    str, int, float, bool or None
        Its value; whole numbers of more than 18 characters become floats.

    Notes
    -----
    Source: YAML 1.2.2, section 10.3.2 "Tag Resolution", https://yaml.org/spec/1.2.2/#1032-tag-resolution

    Examples
    --------
    >>> [resolve(text) for text in ("on", "true", "012", "0x10", "1e3", "12:30", "~")]
    ['on', True, 12, 16, 1000.0, '12:30', None]
    """
    if text in _NULL:
        return None
    if text in _FLAGS:
        return _FLAGS[text]
    if _INFINITY_OR_NOT_A_NUMBER.fullmatch(text):
        return float(text.replace(".", ""))
    short = len(text) <= _LONGEST_INTEGER
    if _OCTAL_OR_HEXADECIMAL.fullmatch(text) and short:
        return int(text, 0)
    if _NUMBER.fullmatch(text):
        return int(text) if _INTEGER.fullmatch(text) and short else float(text)
    return text
