"""The catalogue of this room: all that is said is in it, all in it is said, and each failure has its advice."""

import re
from pathlib import Path

import pytest

import courseware.records
from courseware.content.words import catalogue
from courseware.records.certificates import CODE_STATUSES

SOURCES = [
    path.read_text(encoding="utf-8") for folder in courseware.records.__path__ for path in Path(folder).rglob("*.py")
]
CODE = "\n".join(SOURCES)
RAISED = set(re.findall(r'(?:Error|__init__)\(\s*(?:[\w.+ ]+,\s*)?"([a-z-]+)"', CODE))
CHOSEN = {
    "key-locked",
    "key-wrong-passphrase",
    "event-hash",
    "event-link",
    "decide-unsupervised",
    "decide-missing-result",
}
"""Keys that stand in a condition, where the search does not see both."""
REASONS = {f"decide-{code}" for code in re.findall(r'_reason\("([a-z-]+)"', CODE)}
CODES = {f"code-{status}" for status in CODE_STATUSES if status != "mistyped"}
FAILURES = RAISED | CHOSEN | REASONS | CODES
SHAPES = set(re.findall(r'Shape\(\s*"([a-z-]+)"', CODE))
SAID = set(re.findall(r'say\("records\.([a-z-]+)"', CODE))
KEYS = set(catalogue("records"))


def test_the_search_finds_what_is_there() -> None:
    assert {"no-store", "event-altered", "head-later", "clock-behind", "chain-empty", "not-certified"} <= RAISED
    assert len(RAISED) > 60
    assert len(SHAPES) >= 18


@pytest.mark.parametrize("key", sorted(FAILURES))
def test_every_failure_has_its_advice(key: str) -> None:
    assert key in KEYS
    assert f"{key}-try" in KEYS


def test_nothing_else_is_in_the_catalogue() -> None:
    assert FAILURES | {f"{key}-try" for key in FAILURES} | SAID | SHAPES == KEYS


def test_messages_are_one_line_and_start_small() -> None:
    for key, text in catalogue("records").items():
        assert "\n" not in text, key
        assert text == text.strip(), key
        assert not text.endswith("."), key
