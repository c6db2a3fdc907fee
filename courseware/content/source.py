"""Where a value was written: the file and line that every loaded value carries."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Source:
    """A place in a content file.

    Attributes
    ----------
    file : str
        Path relative to the course folder, with forward slashes on every system.
    line : int
        Line number [-], from 1.
    """

    file: str
    line: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"
