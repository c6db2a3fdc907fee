"""Why is this never done? Single choice made from the never-rules: the options are the reasons of several rules."""

import random
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.item_writing import FEWEST_OPTIONS, MOST_OPTIONS
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials
from courseware.safework.model import SafeWork


@dataclass(frozen=True, slots=True)
class RuleReason:
    """Rules whose reasons each fit one of them only, and how many are shown as options."""

    rules: tuple[str, ...]
    options: int


def load(fields: Fields, _trade: Trade, safework: SafeWork) -> RuleReason:
    """Read ``rules`` and ``options``; no two rules may have the same hazard."""
    rules = fields.references("rules", say("quiz.a-rule"), safework.rules)
    options = fields.integer("options", low=FEWEST_OPTIONS, high=MOST_OPTIONS)
    if len(rules) < options:
        fields.fault(fields.source_of("rules"), say("quiz.too-few-rules", count=len(rules), options=options))
    hazards: dict[str, str] = {}
    for rule_id in rules:
        rule = safework.rules.get(rule_id)
        if rule is not None and rule.hazard in hazards:
            fields.fault(
                fields.source_of("rules"),
                say("quiz.same-hazard", rule=rule_id, other=hazards[rule.hazard], hazard=rule.hazard),
                advice=say("quiz.same-hazard-try"),
            )
        elif rule is not None:
            hazards[rule.hazard] = rule_id
    return RuleReason(rules, options)


def draw(body: RuleReason, made_from: Materials, rng: random.Random) -> Drawn:
    """Draw a rule, and the reasons of others as wrong options."""
    asked, *others = (made_from.safework.rules[rule_id] for rule_id in rng.sample(body.rules, body.options))
    return Drawn(
        identity=_identity(asked.id),
        stem=(say("quiz.rule-reason-rule", rule=asked.title), say("quiz.rule-reason-ask")),
        because=asked.reason,
        options=(
            DrawnOption(asked.reason),
            *(DrawnOption(rule.reason, say("quiz.rule-reason-other", rule=rule.title)) for rule in others),
        ),
    )


def _identity(rule_id: str) -> str:
    return f"rule-reason|{rule_id}"


def claims(body: RuleReason) -> frozenset[str]:
    """Return a question for each rule, whichever reasons stand beside the right one."""
    return frozenset(map(_identity, body.rules))


KIND: Final = ItemKind("choice", load, draw, claims)
