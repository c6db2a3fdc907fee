"""A form of every kind of question, and its key, as the pages and papers get them. Invented for the tests."""

import random
from typing import Final

from courseware.publish.pages import Imprint
from courseware.quiz.base32 import draw_words
from courseware.quiz.form import Belief, Exhibit, Form, Gate, Item, Key, KeyEntry, Option, PassRule, form_sha256

IMPRINT: Final = Imprint("Used-oil heaters: service and safety", "0.1")
_TAGS: Final = draw_words(17, random.Random("tags of the sample form"))  # noqa: S311 (a fixed sample, no secret)


MIXED_UP: Final = Belief(
    "state-of-power-mixed-up", "It is a matter of taste whether a check is made dead or live.",
    "Hands in the heater mean locked out and proved dead.", "ignition-test#isolate",
)  # fmt: skip


def _options(first: int, *texts: str) -> tuple[Option, ...]:
    return tuple(Option(tag, text) for tag, text in zip(_TAGS[first:], texts, strict=False))


FORM: Final = Form(
    id="K52R-7HGM",
    blueprint="ignition-final",
    title="Ignition: finding what is wrong",
    course_version="0.1",
    items=(
        Item(
            1, "scenario", "find-the-fault",
            ("The customer says: it clicks and stops, and a red light comes on. One thing is wrong.",
             "Which repair does the unit need?"),
            Exhibit("Readings", (("Volts at the transformer primary, in the trial", "119 V"),
                                 ("Transformer output by a rated tester", "0.0 kV"),
                                 ("Electrode gap", "1/8 in"))),
            _options(0, "Replace the ignition transformer", "Set the electrode gap",
                     "Repair the line to the transformer", "Clean the flame sensor"),
            "", 4,
        ),
        Item(
            2, "numeric", "secondary-voltage",
            ("The line carries 96 V where the nameplate says 120 V. The transformer is rated 10 kV.",
             "What is its output with the secondary open?"),
            Exhibit("Given", (("Line voltage", "96 V"), ("Rated line voltage", "120 V"), ("Rated output", "10 kV"))),
            (), "kV", 3,
        ),
        Item(
            3, "choice", "why-never",
            ("Why is a bridge never left on the sensor of a unit that runs unattended?",), None,
            _options(4, "With a simulated flame <nothing> stops the oil & it floods the chamber.",
                     "The sensor wears out faster.", "The trial for ignition gets longer."),
            "", 1,
        ),
        Item(
            4, "ordering", "order-of-work",
            ("The unit has a siphon nozzle.", "Put the steps of making the fuel safe in order."), None,
            _options(7, "Take the air line off the burner and bleed it", "Set the air regulator to zero",
                     "Prove that no oil flows", "Look at the spark by mirror through the sight port"),
            "", 4,
        ),
        Item(
            5, "multiple-choice", "locked-or-live",
            ("Some checks are made with the power locked out.",
             "Which of these are such checks? Choose every one that is."), None,
            _options(12, "Electrode gap", "Line voltage at the control", "Contact of posts and electrodes",
                     "Spark at the electrode", "Porcelain of the electrode"),
            "", 2,
        ),
    ),
    instructions=("Answer every question. Where you are not sure, read the readings again.",
                  "A wrong answer that would hurt someone on the job fails the quiz, whatever the score."),
)  # fmt: skip

RIGHT: Final[dict[str, tuple[str, ...]]] = {
    "1": (_TAGS[0],), "2": ("8",), "3": (_TAGS[4],), "4": (_TAGS[8], _TAGS[7], _TAGS[9], _TAGS[10]),
    "5": (_TAGS[12], _TAGS[14], _TAGS[16]),
}  # fmt: skip

KEY: Final = Key(
    FORM.id,
    form_sha256(FORM),
    PassRule(80, safety_gate=True),
    (
        KeyEntry(
            1, "scenario", "find-the-fault", "one-fault", 4, RIGHT["1"],
            "The primary has its volts and the output is nothing: the transformer is open.", "ignition-test#isolate",
            {_TAGS[1]: "The gap is 1/8 in: that is what it should be.",
             _TAGS[2]: "119 V at the primary: the line is sound.",
             _TAGS[3]: "Without a spark no flame comes for the sensor to see."},
        ),
        KeyEntry(2, "numeric", "secondary-voltage", "open-secondary", 2, ("8", "0.1"),
                 "96 V is 0.8 of 120 V, and 0.8 of 10 kV is 8 kV.", "ignition-test#numbers",
                 {"12.5": "Multiplied where it must be divided."}),
        KeyEntry(3, "choice", "why-never", "reason-of-rule", 1, RIGHT["3"],
                 "The control takes the bridge for a flame and keeps the oil on.", "ignition-test#cautions"),
        KeyEntry(4, "ordering", "order-of-work", "steps-in-order", 3, RIGHT["4"],
                 "Air off, then bled, then no flow proved, and only then the look.", "ignition-test#procedure", {},
                 ((_TAGS[8], _TAGS[7]), (_TAGS[7], _TAGS[9]), (_TAGS[9], _TAGS[10])),
                 (Gate((_TAGS[9], _TAGS[10]), "Never look at the spark before no oil is proved", "DANGER",
                       "Oil on a spark burns in the face of whoever looks."),)),
        KeyEntry(5, "multiple-choice", "locked-or-live", "state-of-the-power", 2, RIGHT["5"],
                 "3 of these apply.", "ignition-test#isolate",
                 {_TAGS[12]: "The electrode is drawn: hands go in.", _TAGS[13]: "Measured while the unit calls.",
                  _TAGS[14]: "The cover is opened.", _TAGS[15]: "Seen by mirror in a trial.",
                  _TAGS[16]: "The electrode is drawn and wiped."},
                 misconceptions={_TAGS[13]: MIXED_UP, _TAGS[15]: MIXED_UP}),
    ),
)  # fmt: skip
