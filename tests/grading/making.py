"""Items with their keys, made by hand, so that grading is tested apart from drawing."""

from collections.abc import Sequence

from courseware.quiz.form import Form, Gate, Item, Key, KeyEntry, Option, PassRule, form_sha256

COVER = Gate(("C", "D"), "No cover comes off a live unit.", "DANGER", "Line voltage can kill.")
OIL = Gate(("B31",), "No spark while oil can flow.", "WARNING", "Oil lights all at once.")


def one_of(number: int, points: int, gates: tuple[Gate, ...] = ()) -> tuple[Item, KeyEntry]:
    options = (Option("9G4", "Oil collects"), Option("B31", "It saves oil"), Option("1ZK", "It is quieter"))
    return (
        Item(number, "choice", "know-why", ("Why?",), None, options, "", 1),
        KeyEntry(
            number, "choice", "know-why", "why", points, ("9G4",), "Oil lights all at once.", "ignition#safe",
            {"B31": "Nobody is hurt by wasted oil.", "1ZK": "Noise is no danger."}, gates=gates,
        ),
    )  # fmt: skip


def number_of(number: int, points: int = 1) -> tuple[Item, KeyEntry]:
    return (
        Item(number, "numeric", "work-it-out", ("What is the output?",), None, (), "kV", 3),
        KeyEntry(
            number, "numeric", "work-it-out", "output", points, ("8.33", "0.09"), "100 V x 83.3 = 8.33 kV.",
            "ignition#output", {"10": "That is the output at full line voltage."},
        ),
    )  # fmt: skip


def order_of(
    number: int, tags: Sequence[str], pairs: Sequence[tuple[str, str]], points: int = 1, gates: tuple[Gate, ...] = ()
) -> tuple[Item, KeyEntry]:
    """Return an item whose steps are called by their tags."""
    options = tuple(Option(tag, f"Do {tag}") for tag in sorted(tags))
    return (
        Item(number, "ordering", "work-safely", ("Put the steps in order.",), None, options, "", 2),
        KeyEntry(
            number, "ordering", "work-safely", "order", points, tuple(tags), "Lock out first.", "lockout#order",
            pairs=tuple(pairs), gates=gates,
        ),
    )  # fmt: skip


def made(*parts: tuple[Item, KeyEntry], percent: int = 80, safety_gate: bool = True) -> tuple[Form, Key]:
    form = Form("3BTN-8PS5", "ignition", "Ignition test", "1", tuple(item for item, _ in parts), ())
    rule = PassRule(percent, safety_gate)
    return form, Key(form.id, form_sha256(form), rule, tuple(entry for _, entry in parts))


def whole() -> tuple[Form, Key]:
    """Return a form with an item of each kind: 2 + 1 + 1 + 2 points, pass mark 80 %."""
    pairs = (("C", "D"), ("C", "F"), ("D", "F"))
    return made(one_of(1, 2), number_of(2), one_of(3, 1, (OIL,)), order_of(4, "CDF", pairs, 2, (COVER,)))
