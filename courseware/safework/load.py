"""The documents of safe work, loaded and held against the states of the job."""

from collections.abc import Collection, Iterable, Mapping
from typing import Final

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.words import say
from courseware.heater.job import NO, YES, Job
from courseware.heater.load import Trade
from courseware.safework.load_steps import read_steps
from courseware.safework.model import (
    ALWAYS,
    HAND_BACK,
    SIGNAL_WORDS,
    Action,
    Condition,
    Procedure,
    Rule,
    SafeWork,
)

SAFEWORK_KINDS: Final = ("actions", "rules", "procedure")


def load_safework(documents: Iterable[Document], trade: Trade, problems: Problems) -> SafeWork:
    """Load actions, rules and procedures; every fault found goes to ``problems``."""
    of_kind: dict[str, list[Document]] = {kind: [] for kind in SAFEWORK_KINDS}
    for document in documents:
        of_kind.get(document.kind, []).append(document)
    provenance: list[Provenance] = []
    actions = [one for document in of_kind["actions"] for one in _actions(document, trade.job, provenance, problems)]
    rules = [one for document in of_kind["rules"] for one in _rules(document, trade.job, problems)]
    by_id = {action.id: action for action in actions}
    procedures = [_procedure(document, by_id, trade, problems) for document in of_kind["procedure"]]
    unique_ids(
        [
            *(("action", one.id, one.source) for one in actions),
            *(("rule", one.id, one.source) for one in rules),
            *(("procedure", one.id, one.source) for one in procedures),
        ],
        problems,
    )
    _hold_tags(rules, actions, problems)
    return SafeWork(by_id, {one.id: one for one in rules}, {one.id: one for one in procedures}, tuple(provenance))


def _actions(document: Document, job: Job, provenance: list[Provenance], problems: Problems) -> list[Action]:
    fields = document.fields("", problems)
    provenance.append(read_provenance(fields))
    actions = [_action(one, job) for one in fields.children("actions", "action")]
    fields.finish()
    return actions


def _action(fields: Fields, job: Job) -> Action:
    action = Action(
        id=fields.identifier(),
        title=fields.text("title"),
        needs=_wanted(fields, "needs", job),
        effects=_put(fields, "effects", job),
        tools=fields.texts("tools", required=False),
        ppe=fields.texts("ppe", required=False),
        hazards=fields.texts("hazards", required=False),
        tags=frozenset(fields.texts("tags", required=False)),
        source=fields.source,
    )
    fields.finish()
    return action


def _rules(document: Document, job: Job, problems: Problems) -> list[Rule]:
    fields = document.fields("", problems)
    rules = [_rule(one, job) for one in fields.children("rules", "rule")]
    fields.finish()
    return rules


def _rule(fields: Fields, job: Job) -> Rule:
    at = fields.choice("at", (ALWAYS, HAND_BACK), ALWAYS)
    rule = Rule(
        id=fields.identifier(),
        title=fields.text("title"),
        signal_word=_signal_word(fields),
        hazard=fields.text("hazard"),
        never=tuple(_condition(one, job) for one in fields.children("never", "condition")),
        at=at,
        reason=fields.text("reason"),
        provenance=read_provenance(fields),
        source=fields.source,
    )
    fields.finish()
    return rule


def _signal_word(fields: Fields) -> str:
    word = fields.choice("signal_word", SIGNAL_WORDS)
    return word if word in SIGNAL_WORDS else SIGNAL_WORDS[0]


def _condition(fields: Fields, job: Job) -> Condition:
    condition = Condition(_wanted(fields, "state", job), frozenset(fields.texts("tags", required=False)))
    if not condition.state and not condition.tags:
        fields.fault(fields.source, say("safework.empty-condition"), advice=say("safework.empty-condition-try"))
    fields.finish()
    return condition


def _procedure(document: Document, actions: Mapping[str, Action], trade: Trade, problems: Problems) -> Procedure:
    named = document.fields("procedure", Problems()).text("id")
    fields = document.fields(say("safework.procedure", id=named), problems)
    procedure = Procedure(
        id=fields.identifier(),
        title=fields.text("title"),
        summary=fields.text("summary"),
        start=_put(fields, "start", trade.job),
        done=_wanted(fields, "done", trade.job, required=True),
        steps=read_steps(fields, actions, trade.units),
        lesson=fields.text("lesson"),
        provenance=read_provenance(fields),
        source=fields.source,
    )
    fields.finish()
    return procedure


def _wanted(fields: Fields, key: str, job: Job, *, required: bool = False) -> Mapping[str, tuple[str, ...]]:
    """Read ``{variable or fact: [values]}``."""
    inside = fields.child(key, required=required)
    if inside is None:
        return {}
    found = {}
    for name in inside.entries():
        located = inside.located_texts(name)
        known = _values(job, name)
        if _is_known(inside, name, (*job.variables, *job.derived)):
            for value, source in located:
                inside.refer(source, name, say("safework.a-value"), value, known)
        found[name] = tuple(value for value, _ in located)
    return found


def _put(fields: Fields, key: str, job: Job) -> Mapping[str, str]:
    """Read ``{variable: value}``; a fact cannot be put, it follows."""
    inside = fields.child(key, required=False)
    if inside is None:
        return {}
    found = {}
    for name in inside.entries():
        if name in job.derived:
            inside.fault(
                inside.source_of(name), say("safework.fact-put", fact=name), advice=say("safework.fact-put-try")
            )
        elif _is_known(inside, name, job.variables):
            found[name] = inside.choice(name, _values(job, name))
    return found


def _is_known(fields: Fields, name: str, known: Collection[str]) -> bool:
    if name not in known:
        found = say("safework.unknown-variable", name=name)
        fields.fault(fields.source_of(name), found, listed(known), nearest(name, known))
    return name in known


def _values(job: Job, name: str) -> tuple[str, ...]:
    return job.variables[name].values if name in job.variables else (YES, NO)


def _hold_tags(rules: Iterable[Rule], actions: Iterable[Action], problems: Problems) -> None:
    """Report every rule about a deed that no action is: it could never be broken."""
    tags = frozenset[str]().union(*(action.tags for action in actions))
    for rule in rules:
        named = frozenset[str]().union(*(condition.tags for condition in rule.never))
        for tag in sorted((named | ({HAND_BACK} if rule.at == HAND_BACK else set())) - tags):
            where = say("safework.rule", id=rule.id)
            problems.add(rule.source, where, say("safework.unknown-tag", tag=tag), listed(tags), nearest(tag, tags))
