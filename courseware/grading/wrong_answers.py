"""What a wrong answer stands for, under a name that is the same on every form.

Forms are drawn differently for each person, so tags and places say nothing across forms. What does is the text of the
option chosen, the slip that leads to a number, the two steps put the wrong way round, and the misconception that the
key names behind any of them.
"""

from dataclasses import dataclass

from courseware.content.words import say
from courseware.grading.markers import MARKERS
from courseware.grading.markers.base import Verdict
from courseware.quiz.form import Belief, Item, KeyEntry


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that is wrong about an answer.

    Attributes
    ----------
    name : str
        What was chosen, in words that are the same on every form.
    says : str
        What the key says against it; empty where the name says it all.
    rule : str
        Title of the safety rule that it breaks; empty if none.
    belief : Belief or None
        The misconception behind it, if the key names one.
    """

    name: str
    says: str
    rule: str
    belief: Belief | None


def wrong_in(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> tuple[Wrong, ...]:
    """Return what is wrong about an answer: nothing for a right answer, nor for one left blank.

    Parameters
    ----------
    item : Item
        The question as it stood on the form.
    entry : KeyEntry
        Its key.
    given : tuple of str
        The answer, as in the response.
    """
    verdict = MARKERS[item.kind](item, entry, given)
    if not given or verdict.share == 1:
        return ()
    if not item.options:
        return (_wrong_number(entry, verdict),)
    if entry.pairs:
        return (_wrong_order(verdict),)
    texts = {option.tag: option.text for option in item.options}
    chosen = {tag: texts[tag] for tag in given if tag not in entry.right}
    left_out = {tag: say("grading.left-out", option=texts[tag]) for tag in entry.right if tag not in given}
    names = chosen | (left_out if len(entry.right) > 1 else {})
    rules = {gate.tags[0]: gate.rule for gate in entry.gates}
    return tuple(
        Wrong(name, entry.feedback.get(tag, ""), rules.get(tag, ""), entry.misconceptions.get(tag))
        for tag, name in names.items()
    )


def _wrong_number(entry: KeyEntry, verdict: Verdict) -> Wrong:
    slip = next((value for value, says in entry.feedback.items() if (says,) == verdict.against[:1]), "")
    name = entry.feedback.get(slip) or say("grading.other-number")
    return Wrong(name, "", "", entry.misconceptions.get(slip))


def _wrong_order(verdict: Verdict) -> Wrong:
    name = verdict.against[0] if verdict.against else say("grading.wrong-order")
    broken = verdict.broken
    return Wrong(name, broken.reason if broken else "", broken.rule if broken else "", None)
