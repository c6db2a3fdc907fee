"""Small things that several pages share: files that a page carries inside itself, and how numbers are written."""

import base64
import hashlib
from functools import cache
from importlib.resources import files


@cache
def static_text(name: str) -> str:
    """Return the text of a file in ``publish/static``, line ends as LF on every system."""
    return files("courseware.publish").joinpath("static", name).read_text(encoding="utf-8")


def script_mark(script: str) -> str:
    """Return the mark (nonce) by which a page's own security policy knows the page's own script.

    It is the script's SHA-256 in base 64: the same page gives the same bytes, and text that slipped into
    a page as markup cannot run, since it does not carry the mark. Source: Content Security Policy
    Level 3 (W3C), nonce-source. (A hash-source would do, but checkers take the page's data for a script too.)

    Examples
    --------
    >>> script_mark("")
    '47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='
    """
    return base64.b64encode(hashlib.sha256(script.encode("utf-8")).digest()).decode("ascii")


def number(value: float) -> str:
    """Return points or percent with at most two decimals, none that say nothing.

    Examples
    --------
    >>> number(4.0), number(66.7), number(1 / 3)
    ('4', '66.7', '0.33')
    """
    return f"{value:.2f}".rstrip("0").rstrip(".")
