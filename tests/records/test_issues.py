"""Forms that went out in one go stand together, by the order of the events; what became of each is told."""

from datetime import timedelta
from pathlib import Path

from courseware.records.forms import ReceivedResponse, issue_form, receive_response, void_form
from courseware.records.issues import issue_of, issues
from courseware.records.people import erase
from courseware.records.store import open_store
from tests.records.story import FIRST, NINE, form, tell


def test_a_run_of_events_of_one_quiz_and_one_moment_is_an_issue(tmp_path: Path) -> None:
    tell(tmp_path / "records.sqlite")
    later = NINE + timedelta(minutes=5)
    with open_store(tmp_path / "records.sqlite") as store:
        told = len(issues(store))
        for form_id, blueprint, when in (
            ("A", "ignition", later), ("B", "ignition", later), ("C", "lockout", later),
            ("D", "lockout", later + timedelta(seconds=1)),
        ):  # fmt: skip
            issue_form(store, "T-0003", form(form_id, blueprint), FIRST, when)
        receive_response(store, ReceivedResponse("B", b"answers", "file"), FIRST, later + timedelta(seconds=2))
        void_form(store, "D", "lost", FIRST, later + timedelta(seconds=3))
        issue_form(store, "T-0003", form("E", "lockout"), FIRST, later + timedelta(seconds=3))
        found = issues(store)[told:]
        assert [[one.form for one in issue] for issue in found] == [["A", "B"], ["C"], ["D"], ["E"]]
        assert [one.out for issue in found for one in issue] == [True, False, True, False, True]
        assert issue_of(store, "B") == found[0]
        assert issue_of(store, "none") == ()


def test_every_form_of_the_story_is_told_with_what_became_of_it(tmp_path: Path) -> None:
    """Of two people whose forms the story issues, T-0004 is erased."""
    tell(tmp_path / "records.sqlite")
    with open_store(tmp_path / "records.sqlite") as store:
        forms = {one.form: one for issue in issues(store) for one in issue}
        named = ("7K3Q", "9XA2", "M4C7", "T9PQ", "H5DW")
        assert [forms[name].person_id for name in named] == ["T-0003", None, None, "T-0003", "T-0003"]
        assert [name for name in named if forms[name].answered_at] == ["7K3Q", "9XA2", "M4C7"]
        assert [name for name in named if forms[name].voided_at] == ["H5DW"]
        assert [name for name in named if forms[name].out] == ["T9PQ"]
        assert "Jo" in (forms["T9PQ"].name or "")
        erase(store, "T-0003", FIRST, NINE + timedelta(minutes=1))
        assert [one.name for one in issue_of(store, "T9PQ")] == [None]
