"""``courseware records people``: who is enrolled, and who signs."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_everybody_is_listed_with_who_signs(run: Run) -> None:
    done = run("records", "people", "--company", "shop")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "T-0001\tSal Signer\tsigner\nT-0002\tBo Vise\tbo@example.com\n"


@pytest.mark.parametrize("words", [("people",), ("verify",)])
def test_without_records_both_readers_say_how_to_begin(run: Run, words: tuple[str, ...]) -> None:
    done = run("records", *words)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "the company in '.' has no records yet; "
        "try: begin them: courseware records begin --company . --name NAME --signer NAME\n"
    )
