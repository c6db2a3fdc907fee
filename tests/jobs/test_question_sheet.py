"""A row of the questions' spreadsheet is held to what the course knows, cell by cell, and becomes an entry."""

import csv
import io

import pytest

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.table import Row
from courseware.jobs.question_sheet import COLUMNS, HEADER, held_row, question_of

ALLOWED = {
    "objective": ("find-it", "order-it"),
    "lesson section": ("lockout#the-six-steps", "ignition#isolate"),
    "pool": ("practice", "graded"),
    "misconception": ("off-is-enough",),
    "breaks rule": ("not-proved-dead",),
}
SOUND = {
    "question": "The lock is on.\n\nWhat comes next?",
    "right answer": "Try the controls.",
    "why right": "A lock may hang on the wrong switch.",
    "wrong answer 1": "Open the cover.",
    "why wrong 1": "It may still have power.",
    "misconception 1": "off-is-enough",
    "breaks rule 1": "not-proved-dead",
    "wrong answer 2": "Call the office.",
    "why wrong 2": "Nobody there can see the heater.",
    "objective": "order-it",
    "lesson section": "lockout#the-six-steps",
    "pool": "graded",
}


def row(**changed: str) -> Row:
    """Return a sound row with cells changed; an underline stands for a blank in a column's name."""
    texts = dict.fromkeys(COLUMNS.names, "") | SOUND | {name.replace("_", " "): text for name, text in changed.items()}
    places = {column: f"{chr(ord('A') + at)}4, {column}" for at, column in enumerate(HEADER)}
    return Row(Source("mine.csv", 4), texts, places)


def told(one: Row, taken: tuple[str, ...] = ()) -> str:
    problems = Problems()
    assert held_row(one, ALLOWED, taken, problems) == (len(problems) == 0)
    return "\n".join(map(str, problems))


def test_a_sound_row_becomes_an_entry_of_the_bank() -> None:
    assert told(row()) == ""
    assert question_of(row(points="3"), "mine-4", "Pat Example") == {
        "id": "mine-4", "kind": "choice", "pool": "graded", "objective": "order-it", "points": 3, "minutes": 2,
        "lesson": "lockout#the-six-steps",
        "stem": ["The lock is on.", "What comes next?"],
        "right": {"text": "Try the controls.", "because": "A lock may hang on the wrong switch."},
        "wrong": [
            {"text": "Open the cover.", "because": "It may still have power.", "misconception": "off-is-enough",
             "breaks": "not-proved-dead"},
            {"text": "Call the office.", "because": "Nobody there can see the heater."},
        ],
        "origin": "a question of the company's own, written by Pat Example",
    }  # fmt: skip


def test_every_fault_of_a_row_is_told_with_its_cell() -> None:
    bad = row(
        why_right="", wrong_answer_3="Go home.", misconception_4="off-is-enough", objective="find-is",
        lesson_section="lockout#the-six-step", pool="Graded", points="0", minutes="two", breaks_rule_2="none",
        id="Mine 4",
    )  # fmt: skip
    assert told(bad) == (
        "mine.csv:4: C4, why right: this cell is empty\n"
        "    try: fill it in, or delete the whole row\n"
        "mine.csv:4: K4, breaks rule 2: 'none' is not known\n"
        "    allowed: not-proved-dead\n"
        "mine.csv:4: M4, why wrong 3: this cell is empty, and 'wrong answer 3' of the same row is not\n"
        "    try: fill it in, or empty 'wrong answer 3'\n"
        "mine.csv:4: P4, wrong answer 4: this cell is empty, and 'misconception 4' of the same row is not\n"
        "    try: fill it in, or empty 'misconception 4'\n"
        "mine.csv:4: Q4, why wrong 4: this cell is empty, and 'misconception 4' of the same row is not\n"
        "    try: fill it in, or empty 'misconception 4'\n"
        "mine.csv:4: T4, objective: 'find-is' is not known\n"
        "    allowed: find-it, order-it\n"
        "    try: did you mean 'find-it'?\n"
        "mine.csv:4: U4, lesson section: 'lockout#the-six-step' is not known\n"
        "    allowed: lockout#the-six-steps\n"
        "    try: did you mean 'lockout#the-six-steps'?\n"
        "mine.csv:4: V4, pool: 'Graded' is not known\n"
        "    allowed: graded, practice\n"
        "    try: did you mean 'graded'?\n"
        "mine.csv:4: W4, points: '0' is no whole number\n"
        "    allowed: whole numbers from 1 up\n"
        "mine.csv:4: X4, minutes: 'two' is no whole number\n"
        "    allowed: whole numbers from 1 up\n"
        "mine.csv:4: Y4, id: 'id' is 'Mine 4'\n"
        "    allowed: lower-case letters, digits and single hyphens, starting with a letter"
    )


@pytest.mark.parametrize(("name", "report"), [
    ("lockout-one", (
        "mine.csv:4: Y4, id: the id 'lockout-one' is taken\n    try: give another one, or leave the cell empty"
    )),
    ("lockout-two", ""),
])  # fmt: skip
def test_an_id_is_given_once(name: str, report: str) -> None:
    assert told(row(id=name), ("lockout-one",)) == report


def test_the_columns_are_all_there_once() -> None:
    assert len(set(HEADER)) == len(HEADER) == 25
    assert set(HEADER) == set(COLUMNS.names)
    assert next(csv.reader(io.StringIO(",".join(HEADER)))) == list(HEADER)
