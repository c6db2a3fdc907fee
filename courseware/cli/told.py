"""How results are told, alike by every command that has some to tell."""

from collections.abc import Iterator
from pathlib import Path

from courseware.content.words import say
from courseware.jobs.certify import Certified
from courseware.jobs.change_mark import Changed
from courseware.jobs.company import name_of
from courseware.jobs.grade import Graded
from courseware.jobs.void import Voided
from courseware.jobs.withdraw import TakenBack
from courseware.publish.assets import number


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
        yield say("cli.taken-back-resting", code=one.code, title=one.title, name=name_of(one.name))


def certified_line(certified: Certified) -> str:
    """Return the line on a certificate that was granted."""
    granted = certified.certificate
    return say("cli.certified", name=granted.name, title=granted.title, code=granted.code, last=granted.valid_until)


def replaced_lines(done: Voided, folder: Path) -> Iterator[str]:
    """Yield the lines on forms that were voided, and on those that were issued in their place or to sit again."""
    for form in done.forms:
        yield say("cli.voided", form=form)
    for one in done.replacements:
        yield say("cli.issued", form=one.form.id, person=one.person.id, name=one.person.name)
        if one.again:
            yield say("cli.asked-again", numbers=", ".join(map(str, one.again)))
    if done.replacements:
        yield say("cli.issue-done", page=folder / "build" / "trainee" / "index.html")


def changed_lines(done: Changed, item: int) -> Iterator[str]:
    """Yield the lines on a mark that was changed by hand, and on the certificates that rest on it."""
    result, verdict = done.result, say("cli.grade-passed" if done.result.passed else "cli.grade-not-passed")
    before, now = (number(one.marks[item - 1].points) for one in (done.before, result))
    yield say("cli.mark-changed", form=result.form, name=done.person.name, item=item, before=before, points=now)
    yield say("cli.mark-changed-result", before=done.before.percent, percent=result.percent, verdict=verdict)
    if result.gate_broken:
        yield say("cli.graded-gate", numbers=", ".join(map(str, result.gate_broken)))
    for one in done.certificates:
        yield say("cli.certificate-rests", code=one.code, title=one.title, verdict=verdict)
