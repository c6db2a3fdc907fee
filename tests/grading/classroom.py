"""A class on the bench: forms with any questions, answered by anybody, with the standing that grading gives them."""

import dataclasses
import random
from collections.abc import Mapping, Sequence
from typing import Final

from courseware.grading.class_results import Answered, Attempt, Standing
from courseware.grading.mark import grade
from courseware.quiz.form import Belief, Form, Gate, Item, Key, KeyEntry, Option, PassRule, form_sha256
from courseware.quiz.response import make_response

SPARK: Final = Gate(("B31",), "No spark while oil can flow.", "WARNING", "Oil lights all at once.")
IDLE: Final = Belief("idle-is-dead", "A control that is idle has no voltage.", "The line side is live.", "lockout#dead")
TAGS: Final = ("9G4", "B31", "1ZK")


def choice(number: int, template: str, objective: str = "know-why", *, points: int = 1) -> tuple[Item, KeyEntry]:
    """Return a question whose right answer is 9G4; B31 breaks a rule, 1ZK shows a misconception."""
    options = tuple(
        Option(tag, f"{template} {text}") for tag, text in zip(TAGS, ("right", "unsafe", "idle"), strict=True)
    )
    return (
        Item(number, "choice", objective, (f"Why {template}?",), None, options, "", 1),
        KeyEntry(
            number, "choice", objective, template, points, ("9G4",), "So it is.", f"lesson#{template}",
            {"B31": "It burns.", "1ZK": "It is live."}, gates=(SPARK,), misconceptions={"1ZK": IDLE},
        ),
    )  # fmt: skip


def attempt(
    person: str, parts: Sequence[tuple[Item, KeyEntry]], given: Mapping[str, tuple[str, ...]], number: int = 1
) -> Attempt:
    """Return an attempt as it is right after grading."""
    form = Form(f"{person}-{number}", "ignition", "Ignition", "1", tuple(item for item, _ in parts), ())
    key = Key(form.id, form_sha256(form), PassRule(80, safety_gate=True), tuple(entry for _, entry in parts))
    result = grade(form, key, make_response(form.id, given))
    standing = Standing(
        result.percent, 80, result.passed,
        tuple(dict.fromkeys(mark.gate_broken.rule for mark in result.marks if mark.gate_broken)),
        {name: 100 * tally.points / tally.of for name, tally in result.by_objective.items()},
        "Sal Signer", "2026-11-25", changed=False,
    )  # fmt: skip
    return Attempt(person, number, form.id, standing, Answered(form, key, given, result))


def changed(
    one: Attempt, objectives: Mapping[str, float] | None = None, gates: tuple[str, ...] | None = None
) -> Attempt:
    """Return the attempt with other marks in the records, as after a change by hand."""
    old = one.standing
    objectives, gates = old.objectives if objectives is None else objectives, old.gates if gates is None else gates
    return dataclasses.replace(one, standing=dataclasses.replace(old, objectives=objectives, gates=gates, changed=True))


def from_matrix(rows: Sequence[Sequence[int]]) -> tuple[Attempt, ...]:
    """Return a class whose marks are a matrix of 0 and 1: a row a person, a column a question."""
    return tuple(
        attempt(
            f"P{place}",
            [choice(number, f"q{number}") for number in range(1, len(row) + 1)],
            {str(number): ("9G4",) if right else ("1ZK",) for number, right in enumerate(row, start=1)},
        )
        for place, row in enumerate(rows)
    )


def at_random(people: int, seed: int = 1) -> tuple[Attempt, ...]:
    """Return a class of which each got six of nine questions, some twice from one template, some left blank."""
    chance, made = random.Random(seed), []  # noqa: S311 - a named seed, no secret
    for place in range(people):
        able = chance.random()
        parts = [
            choice(number, f"t{chance.randrange(9)}", f"o{number % 3}", points=1 + number % 2) for number in range(1, 7)
        ]
        answers = {
            str(number): () if chance.random() < 0.1 else ("9G4",) if chance.random() < able else (chance.choice(TAGS),)
            for number in range(1, 7)
        }
        made.append(attempt(f"P{place:02}", parts, answers))
    return tuple(made)
