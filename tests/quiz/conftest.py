"""A form with one item of each kind, made by hand, for tests that need no bank; and the bank that is shipped."""

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.heater.load import load_trade
from courseware.jobs.course import KINDS
from courseware.quiz.draw import Stock
from courseware.quiz.form import Exhibit, Form, Gate, Item, Key, KeyEntry, Option, PassRule, form_sha256
from courseware.quiz.kinds.base import materials
from courseware.quiz.load import load_quiz
from courseware.safework.load import load_safework


@pytest.fixture
def form() -> Form:
    return Form(
        id="3BTN-8PS5",
        blueprint="ignition",
        title="Ignition test",
        course_version="1",
        items=(
            Item(
                1,
                "scenario",
                "find-it",
                ("No heat.", "One thing is wrong. What do you repair?"),
                Exhibit("Readings", (("Transformer output", "6.1 kV"), ("Electrode gap", "1/8 in"))),
                (
                    Option("00G", "Replace the transformer"),
                    Option("1ZK", "Set the gap"),
                    Option("7Q2", "Fill the tank"),
                ),
                "",
                4,
            ),
            Item(2, "numeric", "work-it-out", ("What is the output voltage?",), None, (), "kV", 3),
            Item(
                3,
                "choice",
                "know-why",
                ("Why is the oil made safe first?",),
                None,
                (Option("9G4", "Oil collects and lights at once"), Option("B31", "It saves oil")),
                "",
                1,
            ),
            Item(
                4,
                "ordering",
                "work-safely",
                ("Put the steps in order.",),
                None,
                (Option("C0C", "Lock out"), Option("D5E", "Open the cover"), Option("F7J", "Prove it dead")),
                "",
                2,
            ),
        ),
        instructions=("Answer every question.",),
    )


@pytest.fixture
def key(form: Form) -> Key:
    gate = Gate(("C0C", "D5E"), "No cover comes off a live unit.", "DANGER", "Line voltage can kill.")
    return Key(
        form.id,
        form_sha256(form),
        PassRule(80, safety_gate=True),
        (
            KeyEntry(
                1, "scenario", "find-it", "calls", 2, ("00G",), "Only a weak one gives 6.1 kV.", "ignition#output",
                {"1ZK": "The gap reads 1/8 in: it is right.", "7Q2": "Oil flows."},
            ),
            KeyEntry(
                2, "numeric", "work-it-out", "output", 1, ("8.33", "0.09"), "100 V x 83.3 = 8.33 kV.", "ignition#tap",
                {"10": "That is the output at full line voltage."},
            ),
            KeyEntry(
                3, "choice", "know-why", "why", 1, ("9G4",), "Oil collects, then lights all at once.", "ignition#safe",
                {"B31": "Nobody is hurt by wasted oil."},
                gates=(Gate(("B31",), "No spark while oil can flow.", "WARNING", "Oil lights all at once."),),
            ),
            KeyEntry(
                4, "ordering", "work-safely", "order", 2, ("C0C", "D5E", "F7J"), "Lock out first.", "lockout#order",
                pairs=(("C0C", "D5E"), ("C0C", "F7J"), ("D5E", "F7J")), gates=(gate,),
            ),
        ),
    )  # fmt: skip


@pytest.fixture
def right() -> dict[str, tuple[str, ...]]:
    return {"1": ("00G",), "2": ("8.33",), "3": ("9G4",), "4": ("C0C", "D5E", "F7J")}


@pytest.fixture(scope="session")
def stock() -> Stock:
    """Return the bank that is shipped, and what its questions are made of."""
    problems = Problems()
    documents = read_documents(shipped_course(), KINDS, problems)
    trade = load_trade(documents, problems)
    safework = load_safework(documents, trade, problems)
    bank = load_quiz(documents, trade, safework, problems)
    problems.raise_if_any()
    return Stock(bank, materials(trade, safework, bank.misconceptions.values()), "0.1")
