"""Programs: the shipped file, and every fault of one, whole message by whole message."""

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.records.program import PROGRAM_KINDS, Program, load_programs

SHIPPED_KINDS = (*PROGRAM_KINDS, "blueprint", "procedure")

GOOD = """\
format: courseware/program/1
programs:
  - id: ignition-service
    title: Ignition service
    scope:
      - Finds what is wrong with the ignition from readings
    blueprints: [ignition]
    valid-months: 24
    result-months: 12
    review-required: true
    origin: common practice, no source
"""

Load = Callable[[str], tuple[Mapping[str, Program], list[str]]]


@pytest.fixture
def load(tmp_path: Path) -> Load:
    def run(text: str) -> tuple[Mapping[str, Program], list[str]]:
        (tmp_path / "question_bank").mkdir(exist_ok=True)
        (tmp_path / "question_bank" / "program.yaml").write_text(text, encoding="utf-8")
        problems = Problems()
        documents = read_documents(tmp_path, PROGRAM_KINDS, problems)
        programs = load_programs(documents, {"ignition", "combustion"}, {"ignition-test", "lockout"}, problems)
        return programs, [str(problem) for problem in problems]

    return run


def test_a_program_is_read(load: Load) -> None:
    programs, problems = load(GOOD)
    program = programs["ignition-service"]
    assert problems == []
    assert (program.title, program.scope) == (
        "Ignition service",
        ("Finds what is wrong with the ignition from readings",),
    )
    assert (program.blueprints, program.valid_months, program.result_months) == (("ignition",), 24, 12)
    assert program.review_required
    assert str(program.source) == "question_bank/program.yaml:3"


def test_a_program_asks_for_sign_offs_only_where_it_says_so(load: Load) -> None:
    assert load(GOOD)[0]["ignition-service"].signoffs == ()
    programs, problems = load(
        GOOD.replace("    valid-months", "    signoffs: [lockout, ignition-test]\n    valid-months")
    )
    assert problems == []
    assert programs["ignition-service"].signoffs == ("lockout", "ignition-test")


def test_evidence_counts_only_where_the_program_says_so(load: Load) -> None:
    program = load(GOOD)[0]["ignition-service"]
    assert (program.quizzes_by_evidence, program.signoffs_by_evidence, program.energy_control) == ((), (), ())
    asked = """\
    signoffs: [ignition-test]
    quizzes-by-evidence: [ignition]
    signoffs-by-evidence: [ignition-test]
    energy-control: [lockout]
    valid-months"""
    programs, problems = load(GOOD.replace("    valid-months", asked))
    assert problems == []
    program = programs["ignition-service"]
    assert (program.quizzes_by_evidence, program.signoffs_by_evidence) == (("ignition",), ("ignition-test",))
    assert program.energy_control == ("lockout",)


def test_the_shipped_programs_are_sound() -> None:
    root = Path(__file__).parents[2]
    problems = Problems()
    documents = read_documents(root, SHIPPED_KINDS, problems)
    blueprints, procedures = (
        {one.fields("", Problems()).text("id") for one in documents if one.kind == kind}
        for kind in ("blueprint", "procedure")
    )
    assert load_programs(documents, blueprints, procedures, problems)
    assert [str(problem) for problem in problems if problem.source.file.startswith("question_bank/program")] == []


def test_results_count_as_long_as_the_certificate_unless_said(load: Load) -> None:
    programs, problems = load(GOOD.replace("    result-months: 12\n", ""))
    assert problems == []
    assert programs["ignition-service"].result_months == 24


@pytest.mark.parametrize(
    ("old", "new", "report"),
    [
        (
            "[ignition]",
            "[ignitoin]",
            (
                "question_bank/program.yaml:7: the programs, program 'ignition-service': "
                "'blueprints' names the blueprint 'ignitoin', which does not exist\n"
                "    allowed: combustion, ignition\n    try: did you mean 'ignition'?"
            ),
        ),
        (
            "    blueprints: [ignition]\n",
            "    blueprints: [ignition]\n    signoffs: [lokout]\n",
            (
                "question_bank/program.yaml:8: the programs, program 'ignition-service': "
                "'signoffs' names the procedure 'lokout', which does not exist\n"
                "    allowed: ignition-test, lockout\n    try: did you mean 'lockout'?"
            ),
        ),
        (
            "    blueprints: [ignition]\n",
            "    blueprints: [ignition]\n    quizzes-by-evidence: [combustion]\n",
            (
                "question_bank/program.yaml:8: the programs, program 'ignition-service': "
                "'quizzes-by-evidence' names the quiz of this program 'combustion', which does not exist\n"
                "    allowed: ignition"
            ),
        ),
        (
            "    blueprints: [ignition]\n",
            "    blueprints: [ignition]\n    signoffs-by-evidence: [lockout]\n",
            (
                "question_bank/program.yaml:8: the programs, program 'ignition-service': "
                "'signoffs-by-evidence' names the sign-off of this program 'lockout', which does not exist"
            ),
        ),
        (
            "    blueprints: [ignition]\n",
            "    blueprints: [ignition]\n    energy-control: [lokout]\n",
            (
                "question_bank/program.yaml:8: the programs, program 'ignition-service': "
                "'energy-control' names the quiz or procedure 'lokout', which does not exist\n"
                "    allowed: combustion, ignition, ignition-test, lockout\n    try: did you mean 'lockout'?"
            ),
        ),
        (
            "valid-months: 24",
            "valid-months: 0",
            (
                "question_bank/program.yaml:8: the programs, program 'ignition-service': 'valid-months' is 0\n"
                "    allowed: from 1 to 120"
            ),
        ),
        (
            "review-required: true",
            "review-required: yes",
            (
                "question_bank/program.yaml:10: the programs, program 'ignition-service': "
                "'review-required' is the text 'yes'\n    allowed: true or false"
            ),
        ),
        (
            "    review-required: true\n",
            "    review-requird: true\n    review-required: true\n",
            (
                "question_bank/program.yaml:10: "
                "the programs, program 'ignition-service': unknown key 'review-requird'\n"
                "    allowed: "
                "blueprints, energy-control, id, origin, quizzes-by-evidence, result-months, review-required, "
                "reviewed, scope, signoffs, signoffs-by-evidence, title, valid-months\n"
                "    try: did you mean 'review-required'?"
            ),
        ),
        (
            "title: Ignition service",
            "title: " + "x" * 201,
            (
                "question_bank/program.yaml:4: the programs, program 'ignition-service': "
                "'title' cannot be printed on a certificate as it is\n"
                "    allowed: one line of text, at most 200 characters, with no space at either end"
            ),
        ),
        (
            "      - Finds what is wrong with the ignition from readings\n",
            '      - "two\\nlines"\n',
            (
                "question_bank/program.yaml:6: the programs, program 'ignition-service': "
                "'scope' cannot be printed on a certificate as it is\n"
                "    allowed: one line of text, at most 200 characters, with no space at either end"
            ),
        ),
    ],
)
def test_every_fault_is_told(load: Load, old: str, new: str, report: str) -> None:
    assert old in GOOD
    _, problems = load(GOOD.replace(old, new))
    assert problems == [report]


def test_two_programs_of_one_id(load: Load) -> None:
    _, problems = load(GOOD + GOOD.split("programs:\n")[1])
    assert problems == [
        (
            "question_bank/program.yaml:12: program 'ignition-service': "
            "the id 'ignition-service' is used twice; first at question_bank/program.yaml:3\n"
            "    try: give one of the two another id"
        )
    ]


def test_documents_of_other_kinds_are_left_to_others(load: Load, tmp_path: Path) -> None:
    load(GOOD)
    (tmp_path / "question_bank" / "course.yaml").write_text("format: courseware/course/1\ntitle: X\n")
    problems = Problems()
    documents = read_documents(tmp_path, ["program", "course"], problems)
    assert list(load_programs(documents, {"ignition"}, set(), problems)) == ["ignition-service"]
    assert list(problems) == []
