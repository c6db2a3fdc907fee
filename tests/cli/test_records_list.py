"""``courseware records list``: the office's lists, to read and for a spreadsheet."""

from pathlib import Path

import pytest

from courseware.jobs.company import Places, open_company
from courseware.jobs.lists import LISTS
from courseware.records.people import enroll
from tests.cli.conftest import Run
from tests.demo import NOW


@pytest.fixture
def hostile(shop: Path) -> Path:
    """Let somebody be enrolled whose name is a formula."""
    with open_company(Places(shop)) as company:
        enroll(company.store, '=HYPERLINK("http://evil.example")', "eve@example.com", company.key, NOW)
    return shop


def test_a_name_that_is_a_formula_reaches_no_spreadsheet_as_one(run: Run, hostile: Path, tmp_path: Path) -> None:
    done = run("records", "list", "people", "--csv", "people.csv", "--company", hostile.name)
    assert (done.returncode, done.stdout) == (0, "3 rows written to people.csv\n")
    lines = (tmp_path / "people.csv").read_bytes().split(b"\r\n")
    assert lines[0] == b'\xef\xbb\xbf"Name","Number","E-mail","Enrolled","Signer"'
    assert lines[1].startswith(b'"\'=HYPERLINK(""http://evil.example"")","T-0003",')


@pytest.mark.usefixtures("shop")
def test_an_empty_list_says_so(run: Run) -> None:
    done = run("records", "list", "due", "--company", "shop")
    assert (done.returncode, done.stdout, done.stderr) == (0, "Nothing falls due.\n", "")


def test_a_list_that_there_is_not(run: Run) -> None:
    done = run("records", "list", "everything")
    assert (done.returncode, done.stdout) == (1, "")
    assert "'everything' is not one of " in done.stderr
    assert all(f"'{name}'" in done.stderr for name in LISTS)


def test_where_there_are_no_records_it_is_told(run: Run) -> None:
    done = run("records", "list", "people", "--company", "nowhere")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("the company in 'nowhere' has no records yet")
