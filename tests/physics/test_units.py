"""Units parsed, converted and written."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.physics.units import UNITS, UnitError, from_si, parse, same_dimension, show, to_si, write


@pytest.mark.parametrize(
    ("value", "unit", "si"),
    [
        # NIST SP 811, appendix B.8, from memory; exact by definition unless rounded there.
        (1.0, "psi", 6894.757),
        (1.0, "inHg", 3386.389),
        (1.0, "in", 0.0254),
        (1.0, "ft", 0.3048),
        (1.0, "gal", 3.785411784e-3),
        (1.0, "gph", 3.785411784e-3 / 3600),
        (1.0, "Btu/h", 0.2930711),
        # conventional inch of water: 249.089 Pa, the constant the trade's published values use
        (1.0, "inWC", 249.089),
        # definitions
        (32.0, "degF", 273.15),
        (212.0, "degF", 373.15),
        (25.0, "degC", 298.15),
        (180.0, "degF-net", 100.0),
        (100.0, "degC-net", 100.0),
        (1.0, "Btu/lb", 2326.0),
        (10.0, "kV", 1e4),
        (23.0, "mA", 0.023),
        (1.6, "kohm", 1600.0),
        (5.0, "%", 0.05),
        (35.0, "ppm", 35e-6),
        (2.0, "min", 120.0),
        (1.0, "cfm", 0.3048**3 / 60),
        (0.5, "", 0.5),
    ],
)
def test_conversions(value: float, unit: str, si: float) -> None:
    assert to_si(value, unit) == pytest.approx(si, rel=1e-6)
    assert from_si(si, unit) == pytest.approx(value, rel=1e-6)


@given(st.sampled_from(sorted(UNITS)), st.floats(-1e6, 1e6))
def test_there_and_back(unit: str, value: float) -> None:
    assert from_si(to_si(value, unit), unit) == pytest.approx(value, rel=1e-12, abs=1e-9)


@given(st.sampled_from(sorted(UNITS)), st.floats(-1e6, 1e6), st.integers(0, 4))
def test_what_is_written_is_read_back(unit: str, value: float, digits: int) -> None:
    number, read = parse(write(value, unit, digits))
    assert number == pytest.approx(value, abs=0.51 * 10**-digits)
    assert same_dimension(read, unit)
    assert to_si(1.0, read) == pytest.approx(to_si(1.0, unit))


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("8.3 kV", (8.3, "kV")),
        ("10,000 V", (10000.0, "V")),
        ("1,600 Ω", (1600.0, "ohm")),
        ("−0.02 inWC", (-0.02, "inWC")),
        ("-0.02 inWC", (-0.02, "inWC")),
        ("7.3%", (7.3, "%")),
        ("72 °F", (72.0, "degF")),
        ("480 °F net", (480.0, "degF-net")),
        (".5", (0.5, "")),
        ("1e-6 m3/s", (1e-6, "m3/s")),
    ],
)
def test_parse(text: str, found: tuple[float, str]) -> None:
    assert parse(text) == found


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("ten psi", "'ten psi' does not start with a number"),
        ("", "'' does not start with a number"),
        ("1e999 V", "'1e999 V' is too large a number"),
        ("10 bananas", "'bananas' is not a known unit"),
        ("1,00 V", "',00 V' is not a known unit"),
        ("10 psi gauge", "'psi gauge' is not a known unit"),
    ],
)
def test_parse_refuses(text: str, message: str) -> None:
    with pytest.raises(UnitError) as found:
        parse(text)
    assert str(found.value) == message


def test_show() -> None:
    assert show(68947.57, "psig", 0) == "10 psig"
    assert show(10000.0, "V", 0) == "10,000 V"
    assert show(-0.001, "V", 0) == "0 V"
    assert show(0.0729, "%", 1) == "7.3%"
    assert show(294.26, "degF", 0) == "70 °F"
    assert show(2.0, "", 1) == "2.0"
    assert not math.isnan(to_si(0.0, "degF"))


def test_dimensions() -> None:
    assert same_dimension("psig", "Pa")
    assert not same_dimension("psig", "V")
    assert same_dimension("", "%")
    # 480 °F is a point on a scale and 480 °F net a difference: one is not the other, and both are kelvins
    assert not same_dimension("degF", "degF-net")
    assert not same_dimension("°C net", "°F")
    assert same_dimension("°F net", "degC-net")
    assert same_dimension("degF-net", "K")


def test_a_symbol_does_for_its_unit() -> None:
    assert from_si(to_si(480.0, "°F net"), "degC-net") == pytest.approx(480 / 1.8)
    assert show(to_si(480.0, "°F net"), "°F net", 0) == "480 °F net"
