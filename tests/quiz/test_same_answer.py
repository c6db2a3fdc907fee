"""Two questions of one form never have the same answer, as long as there is another to ask for."""

from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_form, draw_question
from courseware.quiz.form import Form, Key
from courseware.quiz.kinds.reading_meaning import ReadingMeaning
from tests.quiz.making import SECRET

CHOSEN = ("scenario", "choice")


def right_texts(form: Form, key: Key) -> list[str]:
    """Return the text of the right option of each question that has one."""
    asked = [pair for pair in zip(form.items, key.entries, strict=True) if pair[0].kind in CHOSEN]
    return [option.text for item, entry in asked for option in item.options if option.tag in entry.right]


def test_no_form_asks_for_the_same_answer_twice(stock: Stock) -> None:
    for number in range(10):
        texts = right_texts(*draw_form(stock, "ignition", f"A-{number}", SECRET))
        assert len(set(texts)) == len(texts) >= 5


def test_an_answer_comes_again_only_when_there_is_no_other(stock: Stock) -> None:
    template = stock.bank.templates["what-a-reading-says"]
    assert isinstance(template.body, ReadingMeaning)
    there_are = {band.says for name in template.body.checks for band in stock.materials.trade.checks[name].bands}
    asked: set[str] = set()
    identities, says = [], []
    for place in range(len(there_are) + 5):
        drawn = draw_question(template, stock.materials, open_chance("same answer", str(place)), asked)
        identities.append(drawn.identity)
        says.append(drawn.options[drawn.right].text)
        asked |= {identities[-1], f"answer|{says[-1]}"}
    assert len(set(identities)) == len(identities)
    fresh = len(set(says[: len(there_are) - 5]))
    assert fresh == len(there_are) - 5  # the last few are seldom drawn, and a form does not wait for them for ever
    assert set(says) <= there_are
    assert len(set(says)) < len(says)
