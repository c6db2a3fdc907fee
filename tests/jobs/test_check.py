"""The report on a course."""

from pathlib import Path

from courseware.content.folders import shipped_course
from courseware.jobs.check import check_course
from courseware.jobs.course import course_hash
from courseware.jobs.new import copy_course


def test_the_report_on_a_sound_course_says_what_was_read() -> None:
    report = check_course(shipped_course())
    assert report.problems == ()
    kinds = ", ".join(f"{kind} {count}" for kind, count in report.documents.items())
    assert list(report.documents) == sorted(report.documents)
    assert report.summary() == (
        f"{report.course.title}, version {report.course.version}, in {shipped_course()}\n"
        f"documents: {sum(report.documents.values())} ({kinds})\n"
        "faults: none\n"
        f"fingerprint: {course_hash(shipped_course())}"
    )


def test_every_document_that_was_read_is_counted(tmp_path: Path) -> None:
    copied = copy_course(shipped_course(), tmp_path / "course")
    assert sum(check_course(tmp_path / "course").documents.values()) == len(copied)


def test_the_report_for_a_machine_holds_the_same_facts(tmp_path: Path) -> None:
    copy_course(shipped_course(), tmp_path / "course")
    page = tmp_path / "course" / "question_bank" / "course.yaml"
    page.write_text("format: courseware/course/1\ntitle: Bench\n", encoding="utf-8")
    report = check_course(tmp_path / "course")
    assert report.as_json() == {
        "format": "courseware/check/1",
        "sound": False,
        "course": {"title": "Bench", "version": "", "sha256": course_hash(tmp_path / "course")},
        "documents": dict(report.documents),
        "problems": [
            {
                "file": "question_bank/course.yaml",
                "line": 1,
                "where": "course",
                "found": "the key 'version' is missing",
                "allowed": "",
                "try": "add a line 'version: ...'",
            }
        ],
    }
