from courseware.quiz.chance import open_chance
from courseware.quiz.kinds.rule_hazard import KIND
from courseware.safework.model import SafeWork
from tests.quiz.making import MATERIALS, NO_TRADE, RULES, any_question, fields_of, report, rule


def test_the_right_option_is_the_hazard_of_the_rule_asked_about() -> None:
    fields, problems = fields_of("options: 3\nrules: [lock, meter, oil, air]\n")
    body = KIND.load(fields, NO_TRADE, RULES)
    assert report(problems) == ""
    assert KIND.claims is not None
    claimed = KIND.claims(body)
    asked = set()
    for seed in range(60):
        drawn = KIND.draw(body, MATERIALS, open_chance(str(seed)), any_question)
        assert drawn is not None
        name = drawn.stem[0].removeprefix("A rule of safe work: Rule ").removesuffix(".")
        assert drawn.stem[1] == "What is the danger that this rule guards against?"
        assert drawn.options[drawn.right].text == f"Hazard {name}"
        assert drawn.because == f"Reason {name}."
        others = [option for option in drawn.options if option.text != f"Hazard {name}"]
        assert len(others) == 2
        for option in others:
            other = option.text.removeprefix("Hazard ")
            assert option.feedback == f"Another rule guards against that: Rule {other}."
        assert drawn.identity in claimed
        asked.add(name)
    assert asked == {"lock", "meter", "oil", "air"}
    assert len(claimed) == 4


def test_faults_are_told_whole() -> None:
    twin = SafeWork({}, {**RULES.rules, "twin": rule("lock")}, {})
    fields, problems = fields_of("options: 5\nrules: [lock, twin, oils]\n")
    KIND.load(fields, NO_TRADE, twin)
    assert (
        report(problems)
        == """\
items.yaml:2: item 'x': 'rules' names the rule 'oils', which does not exist
    allowed: air, lock, meter, oil, spark, twin
    try: did you mean 'oil'?
items.yaml:2: item 'x': 3 rules cannot give 5 options
items.yaml:2: item 'x': the rules 'twin' and 'lock' have the same hazard, 'Hazard lock': the reason of one could \
stand for the other
    try: keep one of them in this list"""
    )
