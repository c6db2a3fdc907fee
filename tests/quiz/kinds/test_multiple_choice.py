from courseware.content.words import say
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_question
from courseware.quiz.kinds.base import DrawnGate, DrawnOption
from courseware.quiz.kinds.multiple_choice import KIND, WrittenSeveral
from courseware.quiz.layout import lay_out
from tests.quiz.making import MATERIALS, NO_TRADE, RULES, any_question, fields_of, report

GOOD = """\
stem: [The line is locked out., Which of these can still hurt you? Choose every one that can.]
right:
  - {text: Air in its line, because: It has a source of its own., misconception: power-is-all}
  - {text: Heat in the head, because: Steel stays hot., breaks: air}
wrong:
  - {text: Spark at the posts, because: It dies with the line., misconception: not-traced}
  - {text: Voltage at the fan, because: It dies with the line., misconception: not-traced, breaks: spark}
"""


def test_a_written_question_is_drawn_as_it_stands() -> None:
    fields, problems = fields_of(GOOD)
    body = KIND.load(fields, NO_TRADE, RULES)
    fields.finish()
    assert report(problems) == ""
    drawn = KIND.draw(body, MATERIALS, open_chance("any"), any_question)
    assert drawn is not None
    assert drawn.options == (
        DrawnOption("Air in its line", "It has a source of its own."),
        DrawnOption("Heat in the head", "Steel stays hot.", DrawnGate("Rule air.", "DANGER", "Reason air.")),
        DrawnOption("Spark at the posts", "It dies with the line."),
        DrawnOption(
            "Voltage at the fan", "It dies with the line.", DrawnGate("Rule spark.", "DANGER", "Reason spark.")
        ),
    )
    assert (drawn.several, drawn.because, drawn.in_order) == ((0, 1), "2 of these apply.", False)
    assert KIND.claims is not None
    assert KIND.claims(body) == {drawn.identity}
    assert KIND.named is not None
    assert [one.id for one in KIND.named(body)] == ["power-is-all", "not-traced", "not-traced"]


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of(
        "stem: [Which of these can hurt you?]\n"
        "right:\n"
        "  - {text: Air, because: a}\n"
        "wrong:\n"
        "  - {text: All of these, because: b, misconception: c}\n"
        "  - {text: Heat., because: b}\n"
    )
    KIND.load(fields, NO_TRADE, RULES)
    advice = "    try: " + say("quiz.writing-try")
    assert (
        report(problems)
        == f"""\
items.yaml:1: item 'x': 1 of 2 wrong answers name no misconception
    try: name the misconception behind each of them, or behind none
items.yaml:1: item 'x': rule 14: the question 'Which of these can hurt you?' does not say that every one that applies \
is to be chosen
{advice}
items.yaml:1: item 'x': rule 18: there are 3 options; 4 to 6 can be told apart and guessed rarely enough
{advice}
items.yaml:1: item 'x': rule 19: 1 right and 2 wrong options; at least 2 are right and 1 is wrong where several count
{advice}
items.yaml:1: item 'x': rule 23: some options end with a full stop and 'Air' does not
{advice}
items.yaml:1: item 'x': rules 9, 25 and 26: the option 'All of these' speaks of other options
{advice}"""
    )


def test_the_key_has_every_right_tag_and_what_each_option_shows(stock: Stock) -> None:
    template = next(one for one in stock.bank.templates.values() if isinstance(one.body, WrittenSeveral))
    drawn = draw_question(template, stock.materials, open_chance("any"), set())
    form, key = lay_out(stock.bank.blueprints["ignition"], "F-1", "1", [(template, drawn)], open_chance("tags"))
    item, entry = form.items[0], key.entries[0]
    text = {option.tag: option.text for option in item.options}
    assert item.kind == "multiple-choice"
    assert [text[tag] for tag in entry.right] == [option.text for option in template.body.right]
    assert {text[tag]: line for tag, line in entry.feedback.items()} == {
        option.text: option.because for option in (*template.body.right, *template.body.wrong)
    }
    assert {text[tag]: belief.id for tag, belief in entry.misconceptions.items()} == {
        option.text: option.misconception.id
        for option in (*template.body.right, *template.body.wrong)
        if option.misconception is not None
    }
