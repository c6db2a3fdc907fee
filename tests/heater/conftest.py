"""Fixtures of the heater's tests."""

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.heater.load import HEATER_KINDS, Trade, load_trade
from courseware.heater.unit import Unit


@pytest.fixture(scope="session")
def trade() -> Trade:
    """Give the heater documents of the course that ships, without a fault in them."""
    problems, other_kinds = Problems(), Problems()
    documents = read_documents(shipped_course(), HEATER_KINDS, other_kinds)
    found = load_trade(documents, problems)
    problems.raise_if_any()
    return found


@pytest.fixture(scope="session", params=["siphon", "metered"])
def unit(request: pytest.FixtureRequest, trade: Trade) -> Unit:
    """Give each of the shipped units, by how its oil is delivered."""
    return next(one for one in trade.units.values() if one.features["delivery"] == request.param)


@pytest.fixture(scope="session")
def siphon(trade: Trade) -> Unit:
    """Give the siphon unit."""
    return next(one for one in trade.units.values() if one.features["delivery"] == "siphon")


@pytest.fixture(scope="session")
def metered(trade: Trade) -> Unit:
    """Give the metered unit."""
    return next(one for one in trade.units.values() if one.features["delivery"] == "metered")
