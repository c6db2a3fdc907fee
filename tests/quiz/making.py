"""Small parts of a question bank for tests: no unit, a few rules, templates as text."""

from collections.abc import Mapping

from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.content.tree import parse_yaml
from courseware.diagnosis.signatures import Signatures
from courseware.heater.job import Job
from courseware.heater.load import Trade
from courseware.heater.simulate import Run
from courseware.quiz.kinds.base import FixedOrder, Materials
from courseware.safework.model import Condition, Rule, SafeWork

SECRET = bytes(range(32))
PLACE = Source("rules.yaml", 1)
NO_TRADE = Trade({}, {}, {}, {}, (), Job({}, {}))


def rule(name: str) -> Rule:
    return Rule(
        id=name,
        title=f"Rule {name}.",
        signal_word="DANGER",
        hazard=f"Hazard {name}",
        never=(Condition({}, frozenset([name])),),
        at="always",
        reason=f"Reason {name}.",
        provenance=Provenance("common practice, no source", "", "", PLACE),
        source=PLACE,
    )


RULES = SafeWork({}, {name: rule(name) for name in ("lock", "meter", "oil", "air", "spark")}, {})


def no_signatures(unit_id: str) -> Signatures:
    raise AssertionError(unit_id)


def no_runs(unit_id: str) -> Mapping[str, Run]:
    raise AssertionError(unit_id)


def no_orders(procedure_id: str, unit_id: str) -> FixedOrder:
    raise AssertionError((procedure_id, unit_id))


def any_question(_identity: str) -> bool:
    return True


MATERIALS = Materials(NO_TRADE, RULES, no_signatures, no_runs, no_orders)


def fields_of(text: str) -> tuple[Fields, Problems]:
    """Return the fields of a template's own keys, and where its problems go."""
    problems = Problems()
    node = parse_yaml(text, "items.yaml", problems)
    assert node is not None
    return Fields(node, "item 'x'", problems), problems


def report(problems: Problems) -> str:
    return "\n".join(map(str, problems))
