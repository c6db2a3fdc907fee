"""Names of lessons that lead nowhere, from every kind of thing that names one."""

import re
from pathlib import Path

from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.jobs.check import Report
from courseware.jobs.course import load_course
from courseware.jobs.new import copy_course

NAMES_A_LESSON = {"repair", "check", "procedure", "objective", "template", "misconception"}


def test_every_kind_of_thing_that_names_a_lesson_is_held_to_it(tmp_path: Path) -> None:
    """Take every lesson away: everything that names one must be reported, at its own place."""
    copy_course(shipped_course(), tmp_path)
    for path in (tmp_path / "modules").rglob("*.md"):
        path.unlink()
    problems = Problems()
    course = load_course(tmp_path, problems)
    lost = [problem for problem in problems if "which is no lesson and no section of one" in problem.found]
    assert {problem.where.partition(" ")[0] for problem in lost} == NAMES_A_LESSON
    for repair in course.trade.repairs.values():
        assert f"repair '{repair.id}'" in {problem.where for problem in lost}


def test_a_section_that_is_not_there_is_told_with_those_that_are(tmp_path: Path, report: Report) -> None:
    copy_course(shipped_course(), tmp_path)
    course = report.course
    repair = next(one for one in course.trade.repairs.values() if "#" in one.lesson)
    name, _, section = repair.lesson.partition("#")
    wrong = f"{name}#{section}x"
    path = tmp_path / repair.provenance.source.file
    text = path.read_text(encoding="utf-8")
    start = text.index(f"id: {repair.id}\n")
    line = re.compile(rf"lesson: ['\"]?{re.escape(repair.lesson)}['\"]?")
    path.write_text(text[:start] + line.sub(f'lesson: "{wrong}"', text[start:], count=1), encoding="utf-8")
    problems = Problems()
    load_course(tmp_path, problems)
    lesson = next(one for one in course.lessons if one.id == name)
    sections = ", ".join(sorted(f"{name}#{anchor}" for anchor in lesson.anchors))
    assert [str(problem) for problem in problems] == [
        (
            f"{repair.provenance.source}: repair '{repair.id}': "
            f"'lesson' names '{wrong}', which is no lesson and no section of one\n"
            f"    allowed: {sections}\n    try: did you mean '{repair.lesson}'?"
        )
    ]
