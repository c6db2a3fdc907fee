"""A company's first day, worked through the command line: what each command said, kept for the tests of each."""

import io
import os
import sys
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from courseware.cli.main import main
from courseware.jobs.company import Places, archived_form, archived_key, open_company
from courseware.jobs.trainees import right_answers
from courseware.quiz.answer_code import make_answer_code


@dataclass(frozen=True)
class Done:
    """How a command ended, and what it said."""

    returncode: int
    stdout: str
    stderr: str


def ending_of(run: Callable[[], None]) -> int:
    """Return the exit code with which the process would have ended."""
    with pytest.raises(SystemExit) as ended:
        run()
    assert isinstance(ended.value.code, int)
    return ended.value.code


@dataclass
class Day:
    """The folder in which everything happened, and the commands in their order."""

    folder: Path
    done: dict[str, Done] = field(default_factory=dict)

    def type(self, name: str, *arguments: str) -> Done:
        """Run a command line in the folder and keep how it ended under a name."""
        out, err, came_from = io.StringIO(), io.StringIO(), Path.cwd()
        os.chdir(self.folder)
        try:
            with pytest.MonkeyPatch.context() as patch, redirect_stdout(out), redirect_stderr(err):
                patch.setattr(sys, "argv", ["courseware", *arguments])
                code = ending_of(main)
        finally:
            os.chdir(came_from)
        self.done[name] = Done(code, out.getvalue(), err.getvalue())
        return self.done[name]

    @property
    def company(self) -> Path:
        return self.folder / "ridge"

    def forms(self, name: str = "issue") -> list[str]:
        """Return the ids of the forms that a command issued, in the order of issuing."""
        return [line.split()[1] for line in self.done[name].stdout.splitlines() if line.startswith("form ")]


def answer_code(day: Day, form_id: str, **changed: tuple[str, ...]) -> str:
    """Return the answer code of the right answers, but for those that are changed (``item1=()``)."""
    with open_company(Places(day.company)) as company:
        answers = right_answers(archived_key(company, form_id))  # as only the office can
        answers.update({name.removeprefix("item"): value for name, value in changed.items()})
        return make_answer_code(archived_form(company, form_id), answers)


def blank_code(day: Day, form_id: str) -> str:
    """Return the answer code of somebody who answers nothing."""
    with open_company(Places(day.company)) as company:
        form = archived_form(company, form_id)
        return make_answer_code(form, {str(item.number): () for item in form.items})


def live(folder: Path) -> Day:
    """Work through the day: begin, enroll, issue, grade, certify, verify."""
    day = Day(folder)
    day.type("new", "new", "ridge")
    day.type("too early", "records", "enroll", "Bo Ray", "bo@example.com", "--company", "ridge")
    day.type("begin", "records", "begin", "--name", "Ridge Heat", "--signer", "Ann Lee", "--company", "ridge")
    day.type("begin again", "records", "begin", "--name", "Ridge Heat", "--signer", "Ann Lee", "--company", "ridge")
    day.type("enroll", "records", "enroll", "Bo Ray", "bo@example.com", "--company", "ridge")
    day.type("enroll another", "records", "enroll", "Cy Dow", "cy@example.com", "--company", "ridge")
    day.type("issue", "issue", "ignition", "T-0002", "T-0003", "--company", "ridge")
    first, second = day.forms()
    sheets = ["--sheet", answer_code(day, first), "--sheet", blank_code(day, second), "--sheet", "7K3Q"]
    day.type("grade", "grade", *sheets, "--supervised-by", "T-0001", "--company", "ridge")
    day.type("issue lockout", "issue", "lockout", "T-0002", "--company", "ridge")
    (third,) = day.forms("issue lockout")
    day.type(
        "grade lockout", "grade", "--sheet", answer_code(day, third), "--supervised-by", "T-0001", "--company", "ridge"
    )
    day.type("certify too early", "certify", "T-0002", "ignition-service", "--company", "ridge")
    day.type("sign off", "records", "sign-off", "T-0002", "ignition-test", "--unit", "bay-siphon", "--company", "ridge")
    day.type("certify", "certify", "T-0002", "ignition-service", "--company", "ridge")
    day.type("certify another", "certify", "T-0003", "ignition-service", "--company", "ridge")
    day.type("verify", "records", "verify", "--company", "ridge")
    return day
