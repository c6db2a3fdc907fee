"""Problems: in order, once each, as text and as JSON."""

import json

import pytest

from courseware.content.problems import ContentError, Problems, listed, nearest, shown
from courseware.content.source import Source


def collected() -> Problems:
    problems = Problems()
    problems.add(Source("question_bank/b.yaml", 10), "", "later line")
    problems.add(Source("question_bank/b.yaml", 9), "fault 'b'", "found", "allowed", "advice")
    problems.add(Source("question_bank/b.yaml", 9), "fault 'a'", "found")
    problems.add(Source("modules/a.md", 99), "", "earlier file")
    problems.add(Source("modules/a.md", 99), "", "earlier file")
    return problems


def test_problems_stand_in_the_order_of_file_and_line_and_once_each() -> None:
    assert "\n".join(str(problem) for problem in collected()) == (
        "modules/a.md:99: earlier file\n"
        "question_bank/b.yaml:9: fault 'a': found\n"
        "question_bank/b.yaml:9: fault 'b': found\n"
        "    allowed: allowed\n"
        "    try: advice\n"
        "question_bank/b.yaml:10: later line"
    )
    assert len(collected()) == 4


def test_the_same_facts_as_json() -> None:
    assert json.loads(json.dumps([problem.as_json() for problem in collected()][2:])) == [
        {
            "file": "question_bank/b.yaml",
            "line": 9,
            "where": "fault 'b'",
            "found": "found",
            "allowed": "allowed",
            "try": "advice",
        },
        {"file": "question_bank/b.yaml", "line": 10, "where": "", "found": "later line", "allowed": "", "try": ""},
    ]


def test_the_error_holds_all_problems_and_its_text_is_the_report() -> None:
    with pytest.raises(ContentError) as caught:
        collected().raise_if_any()
    assert str(caught.value) == "\n".join(str(problem) for problem in collected())
    assert caught.value.problems == tuple(collected())


def test_no_problem_raises_nothing() -> None:
    Problems().raise_if_any()


def test_names_are_listed_in_order() -> None:
    assert listed({"b", "c", "a"}) == "a, b, c"


@pytest.mark.parametrize(
    ("name", "advice"),
    [
        ("transfomer-open", "did you mean 'transformer-open'?"),
        ("zzz", ""),
        ("", ""),
        ("transformer-open" * 100_000, ""),
    ],
)
def test_the_nearest_name_is_offered_only_if_one_is_near(name: str, advice: str) -> None:
    assert nearest(name, ["transformer-open", "transformer-weak", "gap-wide"]) == advice


def test_an_authors_text_is_shown_on_one_short_line() -> None:
    assert shown("  a\n\tb  ") == "a b"
    assert shown("x" * 60) == "x" * 60
    assert shown("x" * 61) == "x" * 59 + "…"
