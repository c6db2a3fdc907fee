"""How results are told, alike by every command that has some to tell."""

from collections.abc import Iterator

from courseware.content.words import say
from courseware.jobs.certify import Certified
from courseware.jobs.grade import Graded
from courseware.jobs.withdraw import TakenBack


def graded_lines(graded: Graded) -> Iterator[str]:
    """Yield the lines on a response that was graded."""
    result = graded.result
    verdict = say("cli.grade-passed" if result.passed else "cli.grade-not-passed")
    yield say("cli.graded", form=result.form, name=graded.person.name, percent=result.percent, verdict=verdict)
    if result.gate_broken:
        yield say("cli.graded-gate", numbers=", ".join(map(str, result.gate_broken)))


def taken_back_lines(done: TakenBack) -> Iterator[str]:
    """Yield the lines on an entry that was taken back, and on the certificates that rest on it."""
    yield say("cli.taken-back", seq=done.seq)
    for one in done.resting:
        yield say("cli.taken-back-resting", code=one.code, title=one.title, name=one.name or say("jobs.erased-person"))


def certified_line(certified: Certified) -> str:
    """Return the line on a certificate that was granted."""
    granted = certified.certificate
    return say("cli.certified", name=granted.name, title=granted.title, code=granted.code, last=granted.valid_until)
