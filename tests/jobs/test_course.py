"""A whole course: read by every room, fingerprinted, and never the cause of a crash."""

import hashlib
import random
from pathlib import Path

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.jobs.check import Report
from courseware.jobs.course import KINDS, course_hash, load_course
from courseware.jobs.new import copy_course

TITLE_PAGE = "question_bank/course.yaml"


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """Give a copy of the shipped course, free to be damaged."""
    copy_course(shipped_course(), tmp_path / "course")
    return tmp_path / "course"


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Make a sound course of one document, quick to read."""
    page = tmp_path / "small" / TITLE_PAGE
    page.parent.mkdir(parents=True)
    page.write_text("format: courseware/course/1\ntitle: Bench\nversion: '1.10'\n", encoding="utf-8")
    return tmp_path / "small"


def report_on(folder: Path) -> list[str]:
    problems = Problems()
    load_course(folder, problems)
    return [str(problem) for problem in problems]


def test_the_shipped_course_is_sound_and_holds_something_of_everything(report: Report) -> None:
    course = report.course
    assert "\n".join(map(str, report.problems)) == ""
    assert course.title
    assert course.version
    assert min(len(course.trade.units), len(course.trade.faults), len(course.trade.checks)) > 1
    assert min(len(course.safework.actions), len(course.safework.rules), len(course.safework.procedures)) > 1
    assert min(len(course.quizbank.objectives), len(course.quizbank.templates), len(course.quizbank.blueprints)) > 1
    assert len(course.lessons) >= 1
    assert len(course.programs) >= 1
    assert set(report.documents) == set(KINDS)


# what is wrong with the title page -> (its text, the whole report)
TITLE_PAGES = {
    "without version": (
        "format: courseware/course/1\ntitle: Bench\n",
        [f"{TITLE_PAGE}:1: course: the key 'version' is missing\n    try: add a line 'version: ...'"],
    ),
    "version that is a number, unknown key": (
        "format: courseware/course/1\ntitle: Bench\nversion: 1.10\nvesion: x\n",
        [
            (
                f"{TITLE_PAGE}:3: course: 'version' is the number 1.10\n    allowed: text\n"
                '    try: put it in quotes: "1.10"'
            ),
            (
                f"{TITLE_PAGE}:4: course: unknown key 'vesion'\n    allowed: format, title, version\n"
                "    try: did you mean 'version'?"
            ),
        ],
    ),
}


@pytest.mark.parametrize("fault", TITLE_PAGES)
def test_the_whole_message_of_each_fault_of_the_title_page(fault: str, small: Path) -> None:
    text, report = TITLE_PAGES[fault]
    (small / TITLE_PAGE).write_text(text, encoding="utf-8")
    assert report_on(small) == report


def test_a_course_without_a_title_page_is_a_fault(small: Path) -> None:
    (small / TITLE_PAGE).write_text("format: courseware/objectives/1\nobjectives: []\n", encoding="utf-8")
    assert report_on(small)[0] == (
        "question_bank/:1: no document of the format 'courseware/course/1' was found\n"
        "    try: write question_bank/course.yaml with the course's title and version"
    )


def test_a_second_title_page_is_a_fault(small: Path) -> None:
    (small / "question_bank" / "another.yaml").write_bytes((small / TITLE_PAGE).read_bytes())
    assert report_on(small) == [
        (
            f"{TITLE_PAGE}:1: a second document of the format 'courseware/course/1'; the first is "
            "question_bank/another.yaml:1\n    try: keep one of the two"
        )
    ]


def test_every_room_reads_its_documents_in_the_one_run(course: Path) -> None:
    """One unknown key in every document: each must be reported, at its own line."""
    problems = Problems()
    expected = set()
    for document in read_documents(course, KINDS, problems):
        path = course / document.file
        lines = path.read_text(encoding="utf-8").split("\n")
        first = document.node.source.line
        lines.insert(first, "planted-key: 1")
        path.write_text("\n".join(lines), encoding="utf-8")
        expected.add(f"{document.file}:{first + 1}")
    load_course(course, problems)
    planted = {str(problem.source) for problem in problems if problem.found == "unknown key 'planted-key'"}
    assert planted == expected


def test_the_fingerprint_is_as_documented(course: Path) -> None:
    """Recompute it from the sentence in the docstring, by another route through the file system."""
    names = sorted(path.relative_to(course).as_posix() for path in course.rglob("*.*") if path.is_file())
    stream = b"".join(
        name.encode() + b"\n" + str(len(data)).encode() + b"\n" + data
        for name in names
        for data in [(course / name).read_bytes()]
    )
    assert course_hash(course) == hashlib.sha256(stream).hexdigest()


def test_the_same_course_has_the_same_fingerprint_in_two_folders_and_with_other_line_ends(course: Path) -> None:
    before = course_hash(course)
    assert before == course_hash(shipped_course())
    page = course / TITLE_PAGE
    page.write_bytes(page.read_bytes().replace(b"\n", b"\r\n"))
    assert course_hash(course) == before


def test_any_change_of_content_or_name_changes_the_fingerprint(course: Path) -> None:
    found = {course_hash(course)}
    page = course / TITLE_PAGE
    page.write_bytes(page.read_bytes() + b"\n")
    found.add(course_hash(course))
    page.rename(course / "question_bank" / "title.yaml")
    found.add(course_hash(course))
    (course / "question_bank" / "empty.yaml").write_bytes(b"")
    found.add(course_hash(course))
    assert len(found) == 4
    (course / "question_bank" / ".hidden.yaml").write_bytes(b"x")
    assert course_hash(course) in found


DAMAGE = ("5", "-1", "1e9", ".nan", "x", "''", "[]", "[x, 5]", "{}", "{x: 1}", "true", "null", "*a", "!!str 5")


def damage(text: str, chance: random.Random) -> str:
    """Leave out one line, write it twice, or put another value after its colon."""
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    key, colon, _ = lines[at].partition(":")
    kind = chance.randrange(4)
    if kind == 0:
        del lines[at]
    elif kind == 1:
        lines.insert(at, lines[at])
    else:
        lines[at] = f"{key}: {chance.choice(DAMAGE)}" if colon else f"{key} {chance.choice(DAMAGE)}"
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(3))
def test_a_damaged_course_is_reported_and_never_crashes(seed: int, course: Path) -> None:
    """Loaders go on with stand-ins after a fault; none may stumble over another room's."""
    chance = random.Random(seed)  # noqa: S311  # damage need not be secret
    for path in sorted(course.rglob("*.*")):
        if path.is_file() and chance.random() < 0.5:
            path.write_text(damage(path.read_text(encoding="utf-8"), chance), encoding="utf-8")
    report = report_on(course)
    assert all(":" in line for line in report)
