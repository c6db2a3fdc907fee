"""What a check saw and what it found: a check that looked at nothing must not pass."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Report:
    """The outcome of one check over several files.

    Attributes
    ----------
    seen : tuple of Path
        Every file that was looked at, sorted.
    faults : tuple of str
        One line a fault, beginning with the file's name.
    """

    seen: tuple[Path, ...]
    faults: tuple[str, ...]

    def assert_clean(self, expected: int) -> None:
        """Fail unless exactly the expected number of files was seen and nothing was found in them.

        Parameters
        ----------
        expected : int
            Number of files [-], from 1; known to the test without asking the folder.
        """
        assert expected > 0, "a check of no file proves nothing"
        names = ", ".join(path.name for path in self.seen)
        assert len(self.seen) == expected, f"expected {expected} files, saw {len(self.seen)}: {names}"
        assert not self.faults, f"{len(self.faults)} faults:\n" + "\n".join(self.faults)
