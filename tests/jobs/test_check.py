"""The report on a course."""

from pathlib import Path

from courseware.content.documents import content_files
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.jobs.check import Report, check_course
from courseware.jobs.course import course_hash


def test_the_report_on_a_sound_course_says_what_was_read(report: Report) -> None:
    assert report.problems == ()
    kinds = ", ".join(f"{kind} {count}" for kind, count in report.documents.items())
    assert list(report.documents) == sorted(report.documents)
    assert report.summary() == (
        f"{report.course.title}, version {report.course.version}, in {shipped_course()}\n"
        f"documents: {sum(report.documents.values())} ({kinds})\n"
        "faults: none\n"
        f"fingerprint: {course_hash(shipped_course())}"
    )


def test_every_content_file_was_read_and_counted(report: Report) -> None:
    assert sum(report.documents.values()) == len(content_files(shipped_course(), Problems())) > 10


def test_the_report_for_a_machine_holds_the_same_facts(tmp_path: Path) -> None:
    page = tmp_path / "question_bank" / "course.yaml"
    page.parent.mkdir()
    page.write_text("format: courseware/course/1\ntitle: Bench\n", encoding="utf-8")
    assert check_course(tmp_path).as_json() == {
        "format": "courseware/check/1",
        "sound": False,
        "course": {"title": "Bench", "version": "", "sha256": course_hash(tmp_path)},
        "documents": {"course": 1},
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
