"""Verify a company's records: the chain, the signatures, every projection, and a certificate by its code.

Neither needs a key: an auditor with a copy of the records can do both.
"""

from datetime import date
from pathlib import Path

from courseware.jobs.company import Places, not_begun
from courseware.records.basis import basis_lines
from courseware.records.certificates import CodeStatus, verify_code
from courseware.records.heads import read_head, write_head
from courseware.records.store import open_store
from courseware.records.verify import Verification, verify


def verify_records(folder: Path, head: Path | None) -> Verification:
    """Recompute everything in the records.

    Parameters
    ----------
    folder : Path
        The company's folder.
    head : Path, optional
        A file for the end of the chain, to be kept away from the records: where there is one it is held against
        the chain, so that events cut off the end are noticed; after a good verification the new end is saved in it.

    Returns
    -------
    Verification
        What was found.

    Raises
    ------
    Refusal
        If the company has no records.
    """
    with open_store(_records(folder)) as store:
        finding = verify(store, read_head(head) if head is not None and head.exists() else None)
    if finding.ok and head is not None:
        write_head(head, finding.head)
    return finding


def certificate_status(folder: Path, code: str, on: date) -> tuple[CodeStatus, tuple[str, ...]]:
    """Return what the certificate with this code is worth on a day, and line by line what it rests on."""
    with open_store(_records(folder)) as store:
        status = verify_code(store, code, on)
        return status, tuple(basis_lines(store, status.certificate)) if status.certificate else ()


def _records(folder: Path) -> Path:
    file = Places(folder).records
    if not file.exists():
        raise not_begun(folder)
    return file
