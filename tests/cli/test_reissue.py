"""``courseware reissue``: another form for who lost one, or must sit again."""

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_an_answered_form_is_kept_and_another_goes_out(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    old = day.forms()[1]
    done = run("reissue", old.lower(), "--company", "ridge")
    assert done.returncode == 0
    new = done.stdout.split()[1]
    page = Path("ridge", "build", "trainee", "index.html")
    assert new != old
    assert done.stdout == f"form {new} for T-0003 Cy Dow\nhand out what {page} lists\n"
    refused = run("reissue", new, "--company", "ridge")
    assert (refused.returncode, refused.stdout) == (1, "")
    assert refused.stderr.splitlines()[1].startswith("a form is not voided without a reason; try: ")
    lost = run("reissue", new, "--reason", "lost on the way home", "--company", "ridge")
    third = lost.stdout.splitlines()[1].split()[1]
    assert lost.stdout == f"form {new} is void\nform {third} for T-0003 Cy Dow\nhand out what {page} lists\n"
