"""What was computed, kept on disk under the hash of all that it was made from.

Whoever asks names everything that the outcome depends on, the code among it: then a kept outcome cannot be stale, and
throwing all of them away costs only time. A disk that cannot be read or written is no fault: the work is done again.
"""

import contextlib
import hashlib
import os
import tempfile
import zlib
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path
from typing import Final

import numpy as np
from platformdirs import user_cache_path

FOLDER_NAMED_BY: Final = "COURSEWARE_CACHE"
"""The environment variable that names another folder to keep things in."""
MOST_FILES: Final = 4000
_QUICK: Final = 1  # zlib's quickest: most of a run is the same number again and again


def kept(made_from: Iterable[bytes], make: Callable[[], bytes]) -> bytes:
    """Return what ``make`` returns, from disk if it was made from the same things before.

    Parameters
    ----------
    made_from : iterable of bytes
        Everything that the outcome depends on, in a fixed order.
    make : callable
        Makes the outcome; always the same from the same things.
    """
    digest = hashlib.sha256()
    for one in made_from:
        digest.update(len(one).to_bytes(8, "big") + one)
    path = folder() / digest.hexdigest()
    try:
        return zlib.decompress(path.read_bytes())  # its checksum finds a damaged file
    except (OSError, zlib.error):
        made = make()
    with contextlib.suppress(OSError):
        _write(path, zlib.compress(made, _QUICK))
    return made


def folder() -> Path:
    """Return the folder that things are kept in: the user's cache, or the one that the environment names."""
    named = os.environ.get(FOLDER_NAMED_BY)
    return Path(named) if named else user_cache_path("courseware")


@cache
def source_digest(*rooms: Path) -> bytes:
    """Return the digest of the code and all other files of some folders, and of the library they compute with."""
    digest = hashlib.sha256(np.__version__.encode("ascii"))
    for path in sorted(one for room in rooms for one in room.rglob("*") if one.is_file() and one.suffix != ".pyc"):
        digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.digest()


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
    Path(name).replace(path)  # whole or not at all, whoever else writes the same
    _make_room(path.parent)


def _make_room(place: Path) -> None:
    """Throw the older half away once there are too many."""
    files = list(place.iterdir())
    if len(files) > MOST_FILES:
        for path in sorted(files, key=lambda one: one.stat().st_mtime)[: MOST_FILES // 2]:
            path.unlink(missing_ok=True)
