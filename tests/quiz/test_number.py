import dataclasses

import pytest

from courseware.quiz.form import Form, Item
from courseware.quiz.number import number_part, read_number
from courseware.quiz.response import ResponseError


@pytest.fixture
def item(form: Form) -> Item:
    return form.items[1]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("8.33", 8.33),
        ("8,33", 8.33),
        (" 8.33 kV ", 8.33),
        ("8.33kv", 8.33),
        ("8", 8.0),
        (".5", 0.5),
        (",5", 0.5),
        ("5.", 5.0),
        ("-0.02", -0.02),
        ("\u22120,02", -0.02),
        ("+3", 3.0),
        ("0,125", 0.125),
        ("12,34", 12.34),
        ("12345,678", 12345.678),
        ("10,000.5", 10000.5),
        ("1,234,567", 1234567.0),
        ("1.234,5", 1234.5),
        ("1.234.567", 1234567.0),
        ("1.600", 1.6),
        ("8330 V", 8.33),
    ],
)
def test_numbers_as_people_write_them(text: str, value: float, item: Item) -> None:
    assert read_number(text, item) == value


@pytest.mark.parametrize(
    "text", ["", "about 8", "8..3", "8,3,3", "1.2.3", "8.3.", "kV", "1e5", "12,34,567", "--2", "."]
)
def test_what_is_no_number_is_refused(text: str, item: Item) -> None:
    with pytest.raises(ResponseError) as refusal:
        read_number(text, item)
    found = str(refusal.value)
    assert found in (
        f"question 2: '{text}' is not a number; try: write it with digits, such as 8.5 or 8,5 kV",
        f"question 2: '{text}' is not in kV; try: give the number in kV, or the number alone",
    )


def test_what_can_be_read_two_ways_is_refused(item: Item) -> None:
    with pytest.raises(ResponseError) as refusal:
        read_number("1,600 kV", item)
    assert str(refusal.value) == (
        "question 2: '1,600 kV' can be read as 1600 or as 1.600; "
        "try: ask the trainee which is meant, and write 1600 or 1.600 without the comma"
    )


@pytest.mark.parametrize("text", ["8.3 psi", "8.3 sparks", "8.3 k"])
def test_a_unit_of_another_kind_is_refused(text: str, item: Item) -> None:
    with pytest.raises(ResponseError) as refusal:
        read_number(text, item)
    assert str(refusal.value) == f"question 2: '{text}' is not in kV; try: give the number in kV, or the number alone"


def test_letters_are_enough_for_a_degree(item: Item) -> None:
    assert read_number("150 F", dataclasses.replace(item, unit="°F")) == 150.0
    assert read_number("65 °C", dataclasses.replace(item, unit="°F")) == pytest.approx(149.0)


def test_a_net_temperature_is_never_read_as_a_point_on_a_scale(item: Item) -> None:
    net = dataclasses.replace(item, unit="°F net")
    assert read_number("480 F", net) == read_number("480 °F net", net) == read_number("480", net) == 480.0
    with pytest.raises(ResponseError) as refusal:
        read_number("267 °C", net)
    assert str(refusal.value) == (
        "question 2: '267 °C' is not in °F net; try: give the number in °F net, or the number alone"
    )


def test_a_unit_where_none_belongs_is_refused(item: Item) -> None:
    with pytest.raises(ResponseError) as refusal:
        read_number("1.2 kV", dataclasses.replace(item, unit=""))
    assert str(refusal.value) == (
        "question 2: '1.2 kV' has a unit, but the answer has none; try: give the number alone"
    )


@pytest.mark.parametrize(("text", "part"), [("8.3 kV", "8.3"), ("\u22123", "\u22123"), ("a b", "ab"), ("3 gal/h", "3")])
def test_the_number_without_its_unit(text: str, part: str) -> None:
    assert number_part(text) == part
