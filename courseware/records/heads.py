"""A chain head saved outside the store: a small JSON file, to be kept where the store is not.

The chain by itself cannot show that its last events were cut off: what is left still holds together. A
saved head can. It is therefore never replaced by an earlier one.
"""

import json
import re
from pathlib import Path
from typing import Final

from courseware.records.errors import HeadFileError
from courseware.records.events import Head

HEAD_FORMAT: Final = "courseware/chain-head/1"
_HASH: Final = re.compile(r"[0-9a-f]{64}")


def write_head(path: Path, head: Head) -> None:
    """Save a head, in the place of an earlier one.

    Parameters
    ----------
    path : Path
        The file; written beside it first, then moved into place, so that it is never half written.
    head : Head
        From :func:`courseware.records.ledger.head`, after :func:`courseware.records.verify.verify`.

    Raises
    ------
    HeadFileError
        If the file there holds a later head, or another one of the same number: the records have lost or
        changed events since, and this file is the evidence; or if it cannot be written.
    """
    if path.exists():
        saved = read_head(path)
        if saved.seq > head.seq:
            raise HeadFileError("head-later", path=path, saved=saved.seq, found=head.seq)
        if saved.seq == head.seq and saved != head:
            raise HeadFileError("head-differs", path=path, seq=head.seq)
    text = json.dumps({"format": HEAD_FORMAT, "seq": head.seq, "hash": head.hash.hex()}, indent=2)
    fresh = path.with_name(path.name + ".new")
    try:
        fresh.write_text(text + "\n", encoding="utf-8", newline="\n")
        fresh.replace(path)
    except OSError as error:
        raise HeadFileError("head-io", path=path, reason=error.strerror) from error


def read_head(path: Path) -> Head:
    """Read a saved head.

    Raises
    ------
    HeadFileError
        If the file is missing, or is no chain head.
    """
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise HeadFileError("head-io", path=path, reason=error.strerror) from error
    except ValueError as error:
        raise HeadFileError("head-unreadable", path=path) from error
    match found:
        case {"format": str(kind), "seq": int(seq), "hash": str(digest)} if (
            kind == HEAD_FORMAT and seq >= 0 and not isinstance(seq, bool) and _HASH.fullmatch(digest)
        ):
            return Head(seq, bytes.fromhex(digest))
    raise HeadFileError("head-unreadable", path=path)
