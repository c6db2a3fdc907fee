"""Rules between questions: none tells the answer to another, and over the bank the key is not known by its length."""

import dataclasses

from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn, DrawnOption
from courseware.quiz.whole_bank import key_by_length, told_by_another


def choice(stem: str, *options: str) -> Drawn:
    return Drawn(stem, (stem,), "So it is.", options=tuple(DrawnOption(option) for option in options))


def test_the_answer_to_one_question_in_the_stem_of_another_is_told(stock: Stock) -> None:
    one, other = (stock.bank.templates[name] for name in ("lights-then-quits", "nothing-turns"))
    teller = choice("You look at the flame sensor first. What next?", "Lens", "Wire", "Cell")
    asked = choice("Where do you look?", "At the flame sensor", "At the line", "At the tank")
    assert list(told_by_another([(one, asked), (other, teller)])) == [
        (other, "rule 4: 'At the flame sensor', the answer to a question of 'lights-then-quits', stands in the stem")
    ]
    short = choice("Where do you look?", "Flame sensor", "Line", "Tank")
    assert list(told_by_another([(one, short), (other, teller)])) == []
    several = dataclasses.replace(asked, several=(1, 2))
    assert list(told_by_another([(one, several), (other, teller)])) == []


def test_a_bank_whose_key_is_the_longest_too_often_is_told(stock: Stock) -> None:
    """Three options: chance makes 4 of 12, with a standard deviation of 1.63; more than 7 are too many."""
    template, worst = (stock.bank.templates[name] for name in ("lights-then-quits", "nothing-turns"))
    longest, even = (template, ("aaaa", "bb", "cc")), (template, ("aa", "bbb", "cc"))
    assert list(key_by_length([longest] * 7 + [even] * 5)) == []
    found = list(key_by_length([longest] * 7 + [(worst, ("aaaaaaa", "b", "c"))] + [even] * 4))
    assert found == [
        (
            worst,
            (
                "rule 24: the right option is the longest one in 8 of 12 written questions; chance would make it 4. "
                "In this one it stands out the most"
            ),
        )
    ]
    shortest = (template, ("a", "bb", "cc"))
    assert [fault for _, fault in key_by_length([shortest] * 8 + [even] * 4)] == [
        (
            "rule 24: the right option is the shortest one in 8 of 12 written questions; chance would make it 4. "
            "In this one it stands out the most"
        )
    ]
