"""What a certificate rests on, for whoever asks years later: results, sign-offs and evidence, entry by entry."""

from collections.abc import Iterator
from dataclasses import dataclass

from courseware.content.words import say
from courseware.records.evidence import EvidenceEntry, evidence_in
from courseware.records.registers import Certificate, Result, all_certificates, results_in
from courseware.records.signoffs import SignOff, signoffs_in
from courseware.records.store import Store
from courseware.records.vouched import Withdrawal


@dataclass(frozen=True, slots=True)
class Basis:
    """What a certificate rests on.

    Attributes
    ----------
    results : tuple of Result
        The results of its quizzes, also one that was replaced since.
    signoffs : tuple of SignOff
        The sign-offs, also one that was taken back since.
    quiz_evidence, signoff_evidence : tuple of (str, EvidenceEntry)
        Each quiz and each procedure that evidence stands for, with that evidence, also what was taken back since.
    """

    results: tuple[Result, ...]
    signoffs: tuple[SignOff, ...]
    quiz_evidence: tuple[tuple[str, EvidenceEntry], ...]
    signoff_evidence: tuple[tuple[str, EvidenceEntry], ...]


def basis_of(store: Store, certificate: Certificate) -> Basis:
    """Return what a certificate rests on, as the records hold it today."""
    quizzes, procedures = certificate.quiz_evidence, certificate.signoff_evidence
    with store.reading():
        entries = {one.seq: one for one in evidence_in(store, [*quizzes.values(), *procedures.values()])}
        return Basis(
            results_in(store, certificate.results),
            signoffs_in(store, certificate.signoffs),
            tuple((name, entries[seq]) for name, seq in sorted(quizzes.items())),
            tuple((name, entries[seq]) for name, seq in sorted(procedures.items())),
        )


def resting_on(store: Store, seq: int) -> tuple[Certificate, ...]:
    """Return the certificates, not withdrawn, that rest on what this event recorded; in the order of granting."""
    return tuple(
        one
        for one in all_certificates(store)
        if one.withdrawn_on is None
        and seq in {*one.results, *one.signoffs, *one.quiz_evidence.values(), *one.signoff_evidence.values()}
    )


def basis_lines(store: Store, certificate: Certificate) -> Iterator[str]:
    """Yield the auditor's answer line by line: by whom, on which course, and resting on which entries."""
    basis = basis_of(store, certificate)
    signer = _name(certificate.signer_name)
    yield say("records.basis-granted", signer=signer, on=certificate.valid_from, seq=certificate.seq)
    yield say("records.basis-course", version=certificate.course_version, hash=certificate.course_hash)
    yield from (say("records.basis-scope", scope=sentence) for sentence in certificate.scope)
    yield from map(_result_line, basis.results)
    for one in basis.signoffs:
        yield from _signoff_lines(one)
    for name, entry in basis.quiz_evidence:
        yield from _evidence_lines(say("records.basis-quiz", name=name), entry)
    for name, entry in basis.signoff_evidence:
        yield from _evidence_lines(say("records.basis-procedure", name=name), entry)


def _result_line(one: Result) -> str:
    told = {
        "blueprint": one.blueprint, "form": one.form, "score": one.score, "cut": one.cut, "on": one.recorded_at[:10],
        "watcher": _name(one.supervisor_name), "seq": one.seq, "by": one.replaced_by,
    }  # fmt: skip
    if one.replaced_by is None:
        return say("records.basis-result", **told)
    return say("records.basis-result-replaced", **told)


def _signoff_lines(one: SignOff) -> Iterator[str]:
    work = one.work
    unit = say("records.basis-unit", unit=work.unit, serial=work.serial) if work.serial else work.unit
    told = {"procedure": work.procedure, "unit": unit, "on": work.on, "watcher": _name(one.signer_name)}
    yield say("records.basis-signoff", seq=one.seq, **told)
    yield from _taken_back(one.seq, one.withdrawn)


def _evidence_lines(what: str, entry: EvidenceEntry) -> Iterator[str]:
    told = {"evidence": entry.seen.evidence, "on": entry.seen.seen_on, "signer": _name(entry.signer_name)}
    yield say("records.basis-evidence", what=what, seq=entry.seq, **told)
    yield from _taken_back(entry.seq, entry.withdrawn)


def _taken_back(seq: int, withdrawn: Withdrawal | None) -> Iterator[str]:
    if withdrawn is not None:
        yield say("records.basis-taken-back", seq=seq, on=withdrawn.at[:10], reason=withdrawn.reason)


def _name(name: str | None) -> str:
    return name or say("records.basis-erased")
