"""Every getter's fault, told whole."""

from pathlib import Path

import pytest

from courseware.content.fields import Fields, name_of
from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.tree import Mapping, Scalar, parse_yaml
from tests.content.sample import SOUND, report_on_bench, sound

KEYS = (
    "after, bands, format, id, lesson, limits, live, minutes, moment, origin, readings, reviewed, settings, title, "
    "tools, tries"
)
FINITE = "    allowed: numbers that an instrument could show"
LESSONS = "combustion-test, ignition-test, lockout"

# name of the fault -> (the damaged keys, the whole report)
FAULTS = {
    "unknown key": (
        {"repiar": "repiar: x"},
        f"question_bank/b.yaml:21: bench: unknown key 'repiar'\n    allowed: {KEYS}",
    ),
    "unknown key near a known one": (
        {"titel": "titel: Look"},
        f"question_bank/b.yaml:21: bench: unknown key 'titel'\n    allowed: {KEYS}\n    try: did you mean 'title'?",
    ),
    "missing keys": (
        {"title": "", "minutes": "", "origin": ""},
        (
            "question_bank/b.yaml:1: bench: the key 'minutes' is missing\n    try: add a line 'minutes: ...'\n"
            "question_bank/b.yaml:1: bench: the key 'origin' is missing\n    try: add a line 'origin: ...'\n"
            "question_bank/b.yaml:1: bench: the key 'title' is missing\n    try: add a line 'title: ...'"
        ),
    ),
    "number for text": (
        {"title": "title: 1.10"},
        (
            "question_bank/b.yaml:3: bench: 'title' is the number 1.10\n    allowed: text\n"
            '    try: put it in quotes: "1.10"'
        ),
    ),
    "flag for text": (
        {"title": "title: true"},
        "question_bank/b.yaml:3: bench: 'title' is true\n    allowed: text\n    try: put it in quotes: \"true\"",
    ),
    "nothing for text": (
        {"title": "title:"},
        "question_bank/b.yaml:3: bench: 'title' is nothing\n    allowed: text",
    ),
    "list for text": (
        {"title": "title: [a]"},
        "question_bank/b.yaml:3: bench: 'title' is a list\n    allowed: text",
    ),
    "blank text": (
        {"title": 'title: "  "'},
        "question_bank/b.yaml:3: bench: 'title' is empty\n    allowed: text",
    ),
    "bad id": (
        {"id": "id: Spark_Check"},
        (
            "question_bank/b.yaml:2: bench: 'id' is 'Spark_Check'\n"
            "    allowed: lower-case letters, digits and single hyphens, starting with a letter"
        ),
    ),
    "text for a number": (
        {"minutes": "minutes: four"},
        "question_bank/b.yaml:4: bench: 'minutes' is the text 'four'\n    allowed: a number",
    ),
    "flag for a number": (
        {"minutes": "minutes: true"},
        "question_bank/b.yaml:4: bench: 'minutes' is true\n    allowed: a number",
    ),
    "clock time for a number": (
        {"minutes": "minutes: 12:30"},
        "question_bank/b.yaml:4: bench: 'minutes' is the text '12:30'\n    allowed: a number",
    ),
    "infinite number": (
        {"minutes": "minutes: .inf"},
        f"question_bank/b.yaml:4: the number .inf is used\n{FINITE}",
    ),
    "not a number": (
        {"minutes": "minutes: .nan"},
        f"question_bank/b.yaml:4: the number .nan is used\n{FINITE}",
    ),
    "number beyond all counting": (
        {"minutes": "minutes: 1e999"},
        f"question_bank/b.yaml:4: the number 1e999 is used\n{FINITE}",
    ),
    "whole number too long to count with": (
        {"tries": f"tries: {'9' * 19}"},
        f"question_bank/b.yaml:5: bench: 'tries' is the number {'9' * 19}\n    allowed: a whole number",
    ),
    "number below its range": (
        {"minutes": "minutes: 0.10"},
        "question_bank/b.yaml:4: bench: 'minutes' is 0.10\n    allowed: from 0.5 to 60",
    ),
    "number above its range": (
        {"limits": "limits: {low: 30}"},
        "question_bank/b.yaml:12: bench, limits: 'low' is 30\n    allowed: 20 or less",
    ),
    "whole number below its range": (
        {"tries": "tries: 0"},
        "question_bank/b.yaml:5: bench: 'tries' is 0\n    allowed: 1 or more",
    ),
    "broken number for a whole number": (
        {"tries": "tries: 1.0"},
        "question_bank/b.yaml:5: bench: 'tries' is the number 1.0\n    allowed: a whole number",
    ),
    "whole number of 5000 digits": (
        {"tries": f"tries: {'9' * 5000}"},
        f"question_bank/b.yaml:5: the number {'9' * 59}… is used\n{FINITE}",
    ),
    "word for a flag": (
        {"live": "live: yes"},
        "question_bank/b.yaml:6: bench: 'live' is the text 'yes'\n    allowed: true or false",
    ),
    "number for a flag": (
        {"live": "live: 1"},
        "question_bank/b.yaml:6: bench: 'live' is the number 1\n    allowed: true or false",
    ),
    "wrong choice": (
        {"moment": "moment: trail"},
        (
            "question_bank/b.yaml:7: bench: 'moment' is 'trail'\n    allowed: run, standby, trial\n"
            "    try: did you mean 'trial'?"
        ),
    ),
    "flag for a choice": (
        {"moment": "moment: false"},
        "question_bank/b.yaml:7: bench: 'moment' is false\n    allowed: text\n    try: put it in quotes: \"false\"",
    ),
    "dangling reference": (
        {"lesson": "lesson: ignition-tset"},
        (
            "question_bank/b.yaml:8: bench: 'lesson' names the lesson 'ignition-tset', which does not exist\n"
            f"    allowed: {LESSONS}\n    try: did you mean 'ignition-test'?"
        ),
    ),
    "dangling reference in a list": (
        {"after": "after:\n  - lockout\n  - zzz"},
        (
            "question_bank/b.yaml:12: bench: 'after' names the lesson 'zzz', which does not exist\n"
            f"    allowed: {LESSONS}"
        ),
    ),
    "text for a list": (
        {"tools": "tools: mirror"},
        "question_bank/b.yaml:9: bench: 'tools' is the text 'mirror'\n    allowed: a list",
    ),
    "empty list": (
        {"tools": "tools: []"},
        "question_bank/b.yaml:9: bench: 'tools' is an empty list\n    allowed: at least one entry",
    ),
    "wrong entries in a list of texts": (
        {"tools": "tools:\n  - mirror\n  - 5\n  - {a: b}\n  - ''"},
        (
            "question_bank/b.yaml:11: bench: 'tools' is the number 5\n    allowed: text\n"
            '    try: put it in quotes: "5"\n'
            "question_bank/b.yaml:12: bench: 'tools' is a mapping (key: value lines)\n    allowed: text\n"
            "question_bank/b.yaml:13: bench: 'tools' is empty\n    allowed: text"
        ),
    ),
    "wrong entries in a list of numbers": (
        {"readings": "readings: [1, x, true, .nan]"},
        (
            f"question_bank/b.yaml:11: the number .nan is used\n{FINITE}\n"
            "question_bank/b.yaml:11: bench: 'readings' is the text 'x'\n    allowed: a number\n"
            "question_bank/b.yaml:11: bench: 'readings' is true\n    allowed: a number"
        ),
    ),
    "number for a mapping": (
        {"limits": "limits: 5"},
        "question_bank/b.yaml:12: bench, limits: this is the number 5\n    allowed: a mapping (key: value lines)",
    ),
    "list for a mapping whose keys are data": (
        {"settings": "settings: []"},
        "question_bank/b.yaml:18: bench, settings: this is a list\n    allowed: a mapping (key: value lines)",
    ),
    "missing mapping": (
        {"limits": ""},
        "question_bank/b.yaml:1: bench: the key 'limits' is missing\n    try: add a line 'limits: ...'",
    ),
    "wrong entries in a list of mappings": (
        {"bands": "bands:\n  - weak\n  - id: Good\n    hihg: 1\n  - high: 2"},
        (
            "question_bank/b.yaml:15: bench, band 1: this is the text 'weak'\n"
            "    allowed: a mapping (key: value lines)\n"
            "question_bank/b.yaml:16: bench, band 'Good': 'id' is 'Good'\n"
            "    allowed: lower-case letters, digits and single hyphens, starting with a letter\n"
            "question_bank/b.yaml:17: bench, band 'Good': unknown key 'hihg'\n    allowed: high, id\n"
            "    try: did you mean 'high'?\n"
            "question_bank/b.yaml:18: bench, band 3: the key 'id' is missing\n    try: add a line 'id: ...'"
        ),
    ),
    "review without a date": (
        {"reviewed": "reviewed: {by: A. Smith, on: last week}"},
        "question_bank/b.yaml:21: bench, reviewed: 'on' is 'last week'\n    allowed: a date such as 2026-11-25",
    ),
    "review that is a word": (
        {"reviewed": "reviewed: yes"},
        ("question_bank/b.yaml:21: bench, reviewed: this is the text 'yes'\n    allowed: a mapping (key: value lines)"),
    ),
    "text over several lines and too long to show": (
        {"minutes": f"minutes: |\n  four\n  or so\n  {'x' * 100}"},
        f"question_bank/b.yaml:4: bench: 'minutes' is the text 'four or so {'x' * 48}…'\n    allowed: a number",
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_the_whole_message_of_each_fault(fault: str, tmp_path: Path) -> None:
    changes, report = FAULTS[fault]
    assert report_on_bench(tmp_path, sound(**changes)) == report


def test_the_sound_document_has_no_fault(tmp_path: Path) -> None:
    assert sound() == SOUND
    assert report_on_bench(tmp_path, SOUND) == ""


def test_several_faults_of_one_file_are_told_in_one_run(tmp_path: Path) -> None:
    damaged = sound(id="id: 9", minutes="minutes: 99", live="live: off", tools="tools: []", extra="extra: 1")
    assert report_on_bench(tmp_path, damaged) == (
        "question_bank/b.yaml:2: bench: 'id' is the number 9\n    allowed: text\n"
        '    try: put it in quotes: "9"\n'
        "question_bank/b.yaml:4: bench: 'minutes' is 99\n    allowed: from 0.5 to 60\n"
        "question_bank/b.yaml:6: bench: 'live' is the text 'off'\n    allowed: true or false\n"
        "question_bank/b.yaml:9: bench: 'tools' is an empty list\n    allowed: at least one entry\n"
        f"question_bank/b.yaml:21: bench: unknown key 'extra'\n    allowed: {KEYS}"
    )


def fields_of(text: str) -> tuple[Fields, Problems]:
    problems = Problems()
    node = parse_yaml(text, "a.yaml", problems)
    assert node is not None
    return Fields(node, "thing", problems), problems


def test_getters_return_what_was_written() -> None:
    fields, problems = fields_of(
        "name: ' on '\nid: a-1\nminutes: 1e3\ncount: 012\nlive: true\nmoment: on\nlesson: lockout\n"
        "tools: [yes, ' a ']\nafter: [lockout]\nlevels: [1, .5]\ninside: {low: 2}\nrest: {x: 1}\n"
    )
    assert fields.text("name") == "on"
    assert fields.identifier() == "a-1"
    assert fields.number("minutes", low=1000, high=1000) == 1000.0
    assert fields.integer("count") == 12
    assert fields.flag("live") is True
    assert fields.choice("moment", ("on", "off")) == "on"
    assert fields.reference("lesson", "lesson", {"lockout"}) == "lockout"
    assert fields.texts("tools") == ("yes", "a")
    assert fields.references("after", "lesson", {"lockout"}) == ("lockout",)
    assert fields.numbers("levels") == (1.0, 0.5)
    inside = fields.child("inside")
    assert inside is not None
    assert inside.number("low") == 2.0
    rest = fields.child("rest")
    assert rest is not None
    assert rest.entries() == {"x": Scalar(1, Source("a.yaml", 12), "1")}
    for part in (fields, inside, rest):
        part.finish()
    assert list(problems) == []


def test_defaults_stand_for_keys_that_are_not_there() -> None:
    fields, problems = fields_of("other: 1\n")
    assert fields.text("name", "none") == "none"
    assert fields.number("minutes", 2.5) == 2.5
    assert fields.integer("count", 3) == 3
    assert fields.flag("live", default=True) is True
    assert fields.choice("moment", ("on", "off"), "off") == "off"
    assert fields.reference("lesson", "lesson", (), "") == ""
    assert fields.texts("tools", required=False) == ()
    assert fields.numbers("levels", required=False) == ()
    assert fields.child("inside", required=False) is None
    assert list(fields.children("bands", "band", required=False)) == []
    assert not fields.has("name")
    assert fields.source_of("name") == Source("a.yaml", 1)
    assert list(problems) == []


def test_an_empty_list_may_stand_where_the_list_is_optional() -> None:
    fields, problems = fields_of("tools: []\n")
    assert fields.texts("tools", required=False) == ()
    assert list(problems) == []


def test_a_thing_that_is_no_mapping_is_told_once() -> None:
    fields, problems = fields_of("- a\n- b\n")
    assert (fields.text("x"), fields.number("y"), fields.integer("z"), fields.flag("f")) == ("", 0.0, 0, False)
    assert fields.child("c") is None
    assert (fields.items("l"), dict(fields.entries())) == ((), {})
    fields.finish()
    assert [str(problem) for problem in problems] == [
        "a.yaml:1: thing: this is a list\n    allowed: a mapping (key: value lines)"
    ]


def test_a_part_of_a_nameless_whole_is_called_by_its_own_name() -> None:
    problems = Problems()
    node = parse_yaml("limits: 5\nbands: [3]\n", "a.yaml", problems)
    assert node is not None
    fields = Fields(node, "", problems)
    fields.child("limits")
    list(fields.children("bands", "band"))
    assert [problem.where for problem in problems] == ["limits", "band 1"]


def test_things_are_called_by_id_and_by_position_where_they_have_none() -> None:
    place = Source("a.yaml", 1)
    with_id = Mapping({"id": Scalar("gap-wide", place)}, {"id": place}, place)
    assert name_of(with_id, "fault", 3) == "fault 'gap-wide'"
    assert name_of(Mapping({}, {}, place), "fault", 3) == "fault 3"
    assert name_of(Mapping({"id": Scalar(7, place)}, {"id": place}, place), "fault", 3) == "fault 3"
