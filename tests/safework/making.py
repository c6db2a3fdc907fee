"""Procedures made in the tests."""

from collections.abc import Mapping, Sequence

from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.safework.model import Procedure, Step

HERE = Source("tests/safework/making.py", 1)
PROVENANCE = Provenance("made for the tests", "", "", HERE)


def chain_of(
    actions: Sequence[str], start: Mapping[str, str] | None = None, done: Mapping[str, tuple[str, ...]] | None = None
) -> Procedure:
    """Return actions as a procedure, one after the other; each step is called as its action."""
    after = {action: actions[:place][-1:] for place, action in enumerate(actions)}
    return free(after, start, done)


def free(
    after: Mapping[str, Sequence[str]],
    start: Mapping[str, str] | None = None,
    done: Mapping[str, tuple[str, ...]] | None = None,
) -> Procedure:
    """Return a partial order of actions as a procedure; each step is called as its action."""
    steps = tuple(Step(action, action, tuple(before), {}, "", HERE) for action, before in after.items())
    return Procedure("made", "Made", "", start or {}, done or {}, steps, "", PROVENANCE, HERE)
