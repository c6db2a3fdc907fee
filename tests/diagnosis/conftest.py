"""The shipped question bank and its signatures, made once for all tests of the room."""

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.diagnosis.keep import signatures_of
from courseware.diagnosis.signatures import Signatures
from courseware.heater.load import HEATER_KINDS, Trade, load_trade


@pytest.fixture(scope="session")
def trade() -> Trade:
    """Return the bank's heater documents; documents of other rooms are left aside."""
    documents = read_documents(shipped_course(), HEATER_KINDS, Problems())
    problems = Problems()
    loaded = load_trade(documents, problems)
    problems.raise_if_any()
    return loaded


@pytest.fixture(scope="session")
def bank(trade: Trade) -> dict[str, Signatures]:
    """Return the signatures of every unit of the bank."""
    return {name: signatures_of(unit, trade) for name, unit in trade.units.items()}
