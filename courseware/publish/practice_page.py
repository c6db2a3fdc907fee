"""The practice page: service calls to work in the browser, kept on the trainee's device alone.

The page carries its style, its script and the calls, and asks for no other file. The calls share their words: a
sentence stands once in the page's data, however many calls use it. Without scripts the page shows one call
worked in full.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from courseware.content.words import say
from courseware.diagnosis.explain import Against
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.wording import quoted, reading_words, repair_titles
from courseware.heater.checks import Check
from courseware.heater.readings import CANNOT
from courseware.publish.assets import script_mark, static_text
from courseware.publish.feedback import LessonPlace
from courseware.publish.pages import Imprint, render, screen_style
from courseware.quiz.kinds.base import Materials
from courseware.quiz.practice import PREMISE, PracticeCall

#: The messages that the script says: ``publish_practice.spoken-...``.
SPOKEN: Final = (
    "call", "choose-first", "go-on", "kept", "lesson", "lost", "made", "new-call", "not-kept", "open", "over",
    "path-joint", "reading", "right", "seen", "settled", "settles", "tally", "time", "unseen", "weak", "wrong",
)  # fmt: skip
#: Each field filled with its own name: the script fills it.
_UNFILLED: Final = {
    name: f"{{{name}}}"
    for name in (
        "all",
        "call",
        "closed",
        "first",
        "good",
        "minutes",
        "path",
        "reading",
        "repair",
        "says",
        "spent",
        "title",
    )
}


@dataclass(frozen=True, slots=True)
class Card:
    """The checks of one list that are made with the heater set up in the same way.

    Attributes
    ----------
    set_up : str
        How the heater is set up, in words.
    proved : bool
        Whether that has to be brought about and proved, such as that no oil can reach the chamber.
    checks : tuple of Check
        In the order of the question bank.
    """

    set_up: str
    proved: bool
    checks: tuple[Check, ...]


class _Shared:
    """What many calls share, each kept once and named by its place: texts, and reasons made of such places.

    A reason against a repair is a sentence of four parts: the check, its reading, the repair, and what would have been
    found instead. There are many sentences and few parts, so the parts are kept and the script puts them together.
    """

    def __init__(self) -> None:
        self.texts: dict[str, int] = {}
        self.reasons: dict[tuple[int, ...], int] = {}

    def place(self, text: str) -> int:
        """Return the place [-] of a text in the list."""
        return self.texts.setdefault(text, len(self.texts))

    def reason(self, signatures: Signatures, repair: str, one: Against) -> int:
        """Return the place [-] of a reason in the list."""
        number = one.check != COMPLAINT and signatures.check(one.check).unit and one.outcome != CANNOT
        reading = reading_words(signatures, one.check, one.outcome, {one.check: "{value}"} if number else None)
        named = quoted(signatures, repair)
        start, end = _against(one.check, reading, named).split(_CUT)
        parts = (one.check, reading, named, one.sentence.removeprefix(start).removesuffix(end))
        return self.reasons.setdefault(tuple(map(self.place, parts)), len(self.reasons))


_CUT: Final = "\0"


def _against(check: str, reading: str, repair: str, expected: str = _CUT) -> str:
    key = "diagnosis.against-complaint" if check == COMPLAINT else "diagnosis.against"
    return say(key, reading=reading, repair=repair, expected=expected)


def practice_page(
    calls: Sequence[PracticeCall], made_from: Materials, places: Mapping[str, LessonPlace], imprint: Imprint
) -> str:
    """Return the practice page.

    Parameters
    ----------
    calls : sequence of PracticeCall
        The first is shown worked in full; the others are there to work. If there are fewer than two, it says so.
    made_from : Materials
        What the calls were drawn from.
    places : mapping of str to LessonPlace
        Where each section is, by ``lesson#section``.
    imprint : Imprint
        The course it belongs to.

    Returns
    -------
    str
        HTML that asks for no other file.
    """
    script = static_text("practice.js")
    words = {name: say(f"publish_practice.spoken-{name}", **_UNFILLED) for name in SPOKEN}
    return render(
        "practice.html.j2",
        imprint,
        title=say("publish_practice.title"),
        premise=PREMISE.words(),
        cards=_cards(calls, made_from),
        repairs=_repairs(calls, made_from),
        worked=_worked(calls[0], made_from, places) if len(calls) > 1 else None,
        data_json=_inside_script(_data(calls[1:], made_from, places)),
        words_json=_inside_script(words),
        script=script,
        mark=script_mark(script),
        # Its own fonts would make it several times as large; the reader's fonts do.
        inline_style=screen_style("") + static_text("practice.css"),
    )


def _inside_script(data: Any) -> str:
    """Return data as JSON that cannot end the script element it stands in (HTML standard, 4.12.1.3)."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return text.replace("<", "\\u003c")


def _cards(calls: Sequence[PracticeCall], made_from: Materials) -> tuple[Card, ...]:
    """Return every check that a call asks for, by how the heater is set up for it; what takes a proof comes last."""
    asked = {check for call in calls for check in call.evidence}
    by_needs: dict[str, list[Check]] = {}
    for check in made_from.trade.checks.values():
        if check.id in asked:
            by_needs.setdefault(_states(check, made_from), []).append(check)
    derived = made_from.trade.job.derived
    cards = [
        Card(states, not derived.keys().isdisjoint(some[0].needs), tuple(some)) for states, some in by_needs.items()
    ]
    return tuple(sorted(cards, key=lambda card: card.proved))


def _states(check: Check, made_from: Materials) -> str:
    """Return the states of the job that a check needs, in words; empty if it needs none."""
    job = made_from.trade.job
    titles = {name: one.title for name, one in job.variables.items()} | {
        name: one.title for name, one in job.derived.items()
    }
    parts = (
        say(
            "publish_practice.state",
            title=titles[name],
            values=say("publish_practice.values-joint").join(value.replace("-", " ") for value in values),
        )
        for name, values in check.needs.items()
    )
    return say("publish_practice.states-joint").join(parts)


def _repairs(calls: Sequence[PracticeCall], made_from: Materials) -> tuple[tuple[str, str], ...]:
    """Return id and title of every repair that a unit of the calls may need, by title."""
    units = dict.fromkeys(call.unit for call in calls)
    found = {repair for unit in units for repair in made_from.signatures(unit).space.repairs}
    return tuple(sorted(((one, made_from.trade.repairs[one].title) for one in found), key=lambda pair: pair[1]))


def _data(calls: Sequence[PracticeCall], made_from: Materials, places: Mapping[str, LessonPlace]) -> dict[str, Any]:
    """Return what the script works with; texts and reasons stand in lists and are named by their place."""
    shared = _Shared()
    parts = {"reading": "{reading}", "repair": "{repair}", "expected": "{expected}"}
    units = {call.unit: made_from.signatures(call.unit) for call in calls}
    lessons = {repair: made_from.trade.repairs[repair].lesson for one in units.values() for repair in one.space.repairs}
    return {
        "against": [_against("any check", **parts), _against(COMPLAINT, **parts)],
        "calls": [_call(call, units[call.unit], shared) for call in calls],
        "lessons": {repair: [places[at].title, places[at].address] for repair, at in lessons.items() if at in places},
        "minutes": {check.id: check.minutes for one in units.values() for check in one.checks},
        "reasons": list(shared.reasons),
        "repairs": {unit: list(one.space.repairs) for unit, one in units.items()},
        "texts": list(shared.texts),
        "units": {unit: one.space.unit.title for unit, one in units.items()},
    }


def _call(call: PracticeCall, signatures: Signatures, shared: _Shared) -> dict[str, Any]:
    """Return what the script knows of a call; ``against`` goes by the places of the unit's repairs."""
    return {
        "against": [
            [shared.reason(signatures, repair, one) for one in call.against.get(repair, ())]
            for repair in signatures.space.repairs
        ],
        "key": call.key,
        "path": list(call.path),
        "readings": {check: shared.place(value) for check, value in call.values.items()},
        "says": shared.place(signatures.said[call.complaint].says),
        "settles": [shared.place(sentence) for sentence in _settles(call, signatures)],
        "unit": call.unit,
    }


def _settles(call: PracticeCall, signatures: Signatures) -> tuple[str, ...]:
    """Return what the readings of the good path rule out, as sentences, less those that rule out nothing."""
    return tuple(
        say(
            f"diagnosis.ruled-out{'' if line.check != COMPLAINT else '-complaint'}",
            reading=reading_words(signatures, line.check, line.outcome, call.values),
            repairs=repair_titles(signatures, line.repairs),
        )
        for line in call.settles
        if line.repairs
    )


def _worked(call: PracticeCall, made_from: Materials, places: Mapping[str, LessonPlace]) -> dict[str, Any]:
    """Return the call that is shown worked in full."""
    signatures, checks = made_from.signatures(call.unit), made_from.trade.checks
    repair = made_from.trade.repairs[call.key]
    return {
        "unit": signatures.space.unit.title,
        "says": signatures.said[call.complaint].says,
        "readings": tuple((checks[check].title, call.values[check]) for check in call.evidence),
        "repair": repair.title,
        "settles": _settles(call, signatures),
        "minutes": f"{sum(checks[check].minutes for check in call.path):g}",
        "path": say("publish_practice.spoken-path-joint").join(checks[check].title for check in call.path),
        "lesson": places.get(repair.lesson),
    }
