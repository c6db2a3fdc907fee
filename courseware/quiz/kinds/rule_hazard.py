"""What can happen if this rule is broken? Single choice made from the never-rules: the options are their hazards."""

import random
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.item_writing import FEWEST_OPTIONS, MOST_OPTIONS
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted
from courseware.safework.model import SafeWork


@dataclass(frozen=True, slots=True)
class RuleHazard:
    """Rules whose hazards each fit one of them only, and how many are shown as options [-]."""

    rules: tuple[str, ...]
    options: int


def load(fields: Fields, _trade: Trade, safework: SafeWork) -> RuleHazard:
    """Read ``rules`` and ``options``; no two rules may have the same hazard."""
    rules = fields.references("rules", say("quiz.a-rule"), safework.rules)
    options = fields.integer("options", low=FEWEST_OPTIONS, high=MOST_OPTIONS)
    if len(set(rules)) < options:
        fields.fault(fields.source_of("rules"), say("quiz.too-few-rules", count=len(set(rules)), options=options))
    first: dict[str, str] = {}
    for rule_id in rules:
        hazard = safework.rules[rule_id].hazard if rule_id in safework.rules else rule_id
        if hazard in first:
            fields.fault(
                fields.source_of("rules"),
                say("quiz.same-hazard", rule=rule_id, other=first[hazard], hazard=hazard),
                advice=say("quiz.same-hazard-try"),
            )
        first[hazard] = rule_id
    return RuleHazard(rules, options)


def draw(body: RuleHazard, made_from: Materials, rng: random.Random, _wanted: Wanted) -> Drawn:
    """Draw a rule, and the hazards of others as wrong options."""
    belief = made_from.by_relation.get("other-rules-danger")
    asked, *others = (made_from.safework.rules[rule_id] for rule_id in rng.sample(body.rules, body.options))
    return Drawn(
        identity=_identity(asked.id),
        stem=(say("quiz.rule-hazard-rule", rule=asked.title), say("quiz.rule-hazard-ask")),
        because=asked.reason,
        options=(
            DrawnOption(asked.hazard),
            *(
                DrawnOption(rule.hazard, say("quiz.rule-hazard-other", rule=rule.title), belief=belief)
                for rule in others
            ),
        ),
    )


def _identity(rule_id: str) -> str:
    return f"rule-hazard|{rule_id}"


def claims(body: RuleHazard) -> frozenset[str]:
    """Return a question for each rule, whichever hazards stand beside the right one."""
    return frozenset(map(_identity, body.rules))


KIND: Final = ItemKind("choice", load, draw, claims)
