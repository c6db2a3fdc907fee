"""The font files that pages and PDFs use, found in the installed font package.

Only these faces are used, so that every machine makes the same pages.
"""

import importlib.util
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

_PACKAGE = "font_source_sans_pro"
_FACES = (("Regular", 400, "normal"), ("It", 400, "italic"), ("Bold", 700, "normal"), ("BoldIt", 700, "italic"))


@dataclass(frozen=True, slots=True)
class FontFace:
    """One face of the course's font.

    Attributes
    ----------
    file : Path
        The OpenType file.
    weight : int
        CSS font weight [-].
    style : str
        CSS font style: ``normal`` or ``italic``.
    """

    file: Path
    weight: int
    style: str


@lru_cache(maxsize=1)
def font_faces() -> tuple[FontFace, ...]:
    """Return the faces the course uses.

    Raises
    ------
    ModuleNotFoundError
        If the font package is not installed; it is a declared dependency.
    """
    # find_spec, not import: only the folder is wanted, and the package's import lists it by globbing.
    spec = importlib.util.find_spec(_PACKAGE)
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(f"No module named {_PACKAGE!r}", name=_PACKAGE)
    folder = Path(spec.origin).parent / "files"
    return tuple(FontFace(folder / f"SourceSansPro-{name}.ttf", weight, style) for name, weight, style in _FACES)
