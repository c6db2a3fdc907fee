from courseware.content.words import say
from courseware.quiz.chance import open_chance
from courseware.quiz.kinds.base import DrawnGate, DrawnOption
from courseware.quiz.kinds.choice import KIND
from tests.quiz.making import MATERIALS, NO_TRADE, RULES, any_question, fields_of, report

GOOD = """\
stem: [The spark is on., What do you do first?]
right: {text: Switch the lead off, because: It holds the fuel on.}
wrong:
  - {text: Answer the telephone, because: Nobody watches., breaks: spark}
  - {text: Call for a helper, because: A helper cannot tell.}
"""


def test_a_written_question_is_drawn_as_it_stands() -> None:
    fields, problems = fields_of(GOOD)
    body = KIND.load(fields, NO_TRADE, RULES)
    fields.finish()
    assert report(problems) == ""
    drawn = KIND.draw(body, MATERIALS, open_chance("any"), any_question)
    assert drawn is not None
    assert drawn.stem == ("The spark is on.", "What do you do first?")
    assert drawn.options == (
        DrawnOption("Switch the lead off"),
        DrawnOption("Answer the telephone", "Nobody watches.", DrawnGate("Rule spark.", "DANGER", "Reason spark.")),
        DrawnOption("Call for a helper", "A helper cannot tell."),
    )
    assert (drawn.right, drawn.because, drawn.in_order) == (0, "It holds the fuel on.", False)
    assert KIND.claims is not None
    assert KIND.claims(body) == {drawn.identity}


def test_numbers_are_put_in_order() -> None:
    fields, problems = fields_of(
        "stem: [How high?]\n"
        "right: {text: 10 kV, because: a}\n"
        "wrong: [{text: 12 kV, because: b}, {text: 9 kV, because: c}]\n"
    )
    drawn = KIND.draw(KIND.load(fields, NO_TRADE, RULES), MATERIALS, open_chance("any"), any_question)
    assert report(problems) == ""
    assert drawn is not None
    assert [option.text for option in drawn.options] == ["9 kV", "10 kV", "12 kV"]
    assert [option.feedback for option in drawn.options] == ["c", "", "b"]
    assert (drawn.right, drawn.in_order) == (1, True)


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of(
        "stem: [You take]\n"
        "right: {text: All of these, because: a, breaks: locks}\n"
        "wrong: [{text: All of these, reason: b}]\n"
    )
    KIND.load(fields, NO_TRADE, RULES)
    advice = "    try: " + say("quiz.writing-try")
    assert (
        report(problems)
        == f"""\
items.yaml:1: item 'x': rule 15: the stem ends with 'You take', which neither asks nor instructs
{advice}
items.yaml:1: item 'x': rule 18: there are 2 options; 3 to 5 can be told apart and guessed rarely enough
{advice}
items.yaml:1: item 'x': rule 22: the option 'All of these' stands there twice
{advice}
items.yaml:1: item 'x': rules 9, 25 and 26: the option 'All of these' speaks of other options
{advice}
items.yaml:2: item 'x', right: 'breaks' names the rule 'locks', which does not exist
    allowed: air, lock, meter, oil, spark
    try: did you mean 'lock'?
items.yaml:3: item 'x', option 1: the key 'because' is missing
    try: add a line 'because: ...'
items.yaml:3: item 'x', option 1: unknown key 'reason'
    allowed: because, breaks, misconception, text
    try: did you mean 'breaks'?"""
    )
