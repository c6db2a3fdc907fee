"""Files to documents: each fault of a file's place, format line and front matter told whole."""

import os
from pathlib import Path

import pytest

from courseware.content.documents import content_files, read_documents
from courseware.content.problems import Problems
from tests.content.sample import KINDS, SOUND, report_on, report_on_bench, sound

FORMATS = "    allowed: courseware/bench/1, courseware/lesson/1"
LESSON = "---\nformat: courseware/lesson/1\ntitle: Spark\n---\n\n# Spark\n"
EMPTY = "the file holds nothing\n    try: write at least one entry, or delete the file"

# name of the fault -> (the files of the damaged course, the whole report)
FAULTS: dict[str, tuple[dict[str, str | bytes], str]] = {
    "nothing to check": (
        {},
        (
            "question_bank/:1: no content file was found in question_bank/, modules/\n"
            "    try: name the course folder with --course, or make one: courseware new my-course"
        ),
    ),
    "no format line": (
        {"question_bank/b.yaml": sound(format="")},
        (
            f"question_bank/b.yaml:1: the key 'format' is missing\n{FORMATS}\n"
            "    try: make the file's first line 'format: ...'"
        ),
    ),
    "format misspelt": (
        {"question_bank/b.yaml": sound(format="format: courseware/bnech/1")},
        (
            f"question_bank/b.yaml:1: 'format' is 'courseware/bnech/1'\n{FORMATS}\n"
            "    try: did you mean 'courseware/bench/1'?"
        ),
    ),
    "format of another version": (
        {"question_bank/b.yaml": sound(format="format: courseware/bench/2")},
        (
            f"question_bank/b.yaml:1: 'format' is 'courseware/bench/2'\n{FORMATS}\n"
            "    try: did you mean 'courseware/bench/1'?"
        ),
    ),
    "format that is a number": (
        {"question_bank/b.yaml": sound(format="format: 1")},
        f"question_bank/b.yaml:1: 'format' is '1'\n{FORMATS}",
    ),
    "format that is a list": (
        {"question_bank/b.yaml": sound(format="format: [bench]")},
        "question_bank/b.yaml:1: 'format' is a list\n    allowed: text",
    ),
    "list instead of a document": (
        {"question_bank/b.yaml": "# tools\n- mirror\n"},
        "question_bank/b.yaml:2: this is a list\n    allowed: a mapping (key: value lines)",
    ),
    "word instead of a document": (
        {"question_bank/b.yaml": "mirror\n"},
        "question_bank/b.yaml:1: this is the text 'mirror'\n    allowed: a mapping (key: value lines)",
    ),
    "files that miss being content by their suffix": (
        {
            "question_bank/b.yaml": SOUND,
            "question_bank/c.yml": SOUND,
            "question_bank/spark.md": LESSON,
            "modules/spark.markdown": LESSON,
            "modules/d.yaml": SOUND,
            "modules/photo.png": b"\x89PNG",
        },
        (
            "modules/d.yaml:1: this file is not read\n    allowed: names that end in .md in modules/\n"
            "modules/spark.markdown:1: this file is not read\n    allowed: names that end in .md in modules/\n"
            "question_bank/c.yml:1: this file is not read\n    allowed: names that end in .yaml in question_bank/\n"
            "question_bank/spark.md:1: this file is not read\n    allowed: names that end in .yaml in question_bank/"
        ),
    ),
    "front matter missing": (
        {"modules/a.md": "# Spark\n"},
        (
            "modules/a.md:1: the front matter is missing\n"
            "    try: start the file with a line '---', the front matter, and a line '---'"
        ),
    ),
    "front matter open": (
        {"modules/a.md": "---\nformat: courseware/lesson/1\n\n# Spark\n"},
        "modules/a.md:1: the front matter is not closed\n    try: put a line '---' after it",
    ),
    "front matter empty": ({"modules/a.md": "---\n---\n# Spark\n"}, f"modules/a.md:2: {EMPTY}"),
    "Markdown file empty": (
        {"modules/a.md": ""},
        (
            "modules/a.md:1: the front matter is missing\n"
            "    try: start the file with a line '---', the front matter, and a line '---'"
        ),
    ),
    "front matter not YAML, line ends CR LF, and a fault in the body": (
        {"modules/a.md": "---\r\nformat: courseware/lesson/1\r\ntitle: a: b\r\n---\r\n\r\nSpark\x07\r\n"},
        (
            "modules/a.md:3: not valid YAML: mapping values are not allowed in this context\n"
            "    try: check the indentation and the quotes on this line and the one above it\n"
            "modules/a.md:6: the invisible character U+0007 is used\n"
            "    allowed: printable characters, tabs and line ends\n"
            "    try: delete the character, or type the line again"
        ),
    ),
    "front matter of an unknown format": (
        {"modules/a.md": "---\n# about\nformat: courseware/leson/1\n---\n"},
        f"modules/a.md:3: 'format' is 'courseware/leson/1'\n{FORMATS}\n    try: did you mean 'courseware/lesson/1'?",
    ),
    "id used three times": (
        {"question_bank/b.yaml": SOUND, "question_bank/a/c.yaml": SOUND, "question_bank/d.yaml": SOUND},
        (
            "question_bank/b.yaml:2: bench 'spark-check': the id 'spark-check' is used twice; "
            "first at question_bank/a/c.yaml:2\n    try: give one of the two another id\n"
            "question_bank/d.yaml:2: bench 'spark-check': the id 'spark-check' is used twice; "
            "first at question_bank/a/c.yaml:2\n    try: give one of the two another id"
        ),
    ),
    "faults in several files": (
        {
            "question_bank/b.yaml": sound(minutes="minutes: 99"),
            "question_bank/a/c.yaml": "",
            "modules/z.md": "x",
            "modules/a.md": "---\n- a\n---\n",
        },
        (
            "modules/a.md:2: this is a list\n    allowed: a mapping (key: value lines)\n"
            "modules/z.md:1: the front matter is missing\n"
            "    try: start the file with a line '---', the front matter, and a line '---'\n"
            f"question_bank/a/c.yaml:1: {EMPTY}\n"
            "question_bank/b.yaml:4: bench: 'minutes' is 99\n    allowed: from 0.5 to 60"
        ),
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_the_whole_message_of_each_fault(fault: str, tmp_path: Path) -> None:
    damaged, report = FAULTS[fault]
    assert report_on(tmp_path, dict(damaged.items())) == report


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_a_lesson_knows_the_line_its_body_starts_on(line_end: str, tmp_path: Path) -> None:
    (tmp_path / "modules").mkdir()
    (tmp_path / "modules" / "a.md").write_bytes(LESSON.replace("\n", line_end).encode())
    problems = Problems()
    (lesson,) = read_documents(tmp_path, KINDS, problems)
    assert (lesson.kind, lesson.version, lesson.file) == ("lesson", 1, "modules/a.md")
    assert lesson.body == "\n# Spark\n"
    assert lesson.body_line == 5
    assert lesson.node.keys["title"].line == 3
    assert list(problems) == []


def test_documents_come_in_the_order_of_their_names(tmp_path: Path) -> None:
    names = ["modules/b.md", "modules/a/z.md", "question_bank/A.YAML", "question_bank/b/a.yaml", "modules/a.md"]
    for name in names:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes((LESSON if name.endswith("md") else SOUND).encode())
    problems = Problems()
    assert [document.file for document in read_documents(tmp_path, KINDS, problems)] == sorted(names)
    assert list(problems) == []


def test_hidden_files_and_folders_are_passed_over(tmp_path: Path) -> None:
    files = {"question_bank/b.yaml": SOUND, "question_bank/.b.yaml": "x", "modules/.git/a.md": "x"}
    assert report_on(tmp_path, dict(files)) == ""


def test_a_folder_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    walk = os.scandir

    def refuse(path: str) -> object:
        if Path(path).name == "locked":
            raise PermissionError(13, "Permission denied", path)
        return walk(path)

    assert report_on(tmp_path, {"question_bank/b.yaml": SOUND, "question_bank/locked/c.yaml": SOUND}) != ""
    monkeypatch.setattr(os, "scandir", refuse)
    problems = Problems()
    assert [name for name, _ in content_files(tmp_path, problems)] == ["question_bank/b.yaml"]
    assert [str(problem) for problem in problems] == [
        (
            "question_bank/locked/:1: the folder could not be read: Permission denied\n"
            "    try: check that it is there and that you may read it"
        )
    ]


def test_a_link_to_nowhere_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def vanish(_: Path) -> os.stat_result:
        raise FileNotFoundError(2, "No such file or directory")

    problems = Problems()
    report_on_bench(tmp_path, SOUND)
    monkeypatch.setattr("courseware.content.documents.content_files", lambda *_: (("question_bank/b.yaml", tmp_path),))
    monkeypatch.setattr(Path, "stat", vanish)
    assert read_documents(tmp_path, KINDS, problems) == ()
    assert [str(problem) for problem in problems] == [
        (
            "question_bank/b.yaml:1: the file could not be read: No such file or directory\n"
            "    try: check that it is there and that you may read it"
        )
    ]
