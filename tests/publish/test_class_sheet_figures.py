"""Bars: as long as their share, each with its words and its value, the cut where it belongs."""

import itertools
import re
from xml.etree import ElementTree as ET

import pytest

from courseware.publish.class_sheet_figures import MOST_BARS, RIGHT, SIDE, Bar, Cut, bars, pages_of
from courseware.publish.figures.base import WIDTH, Figure

ROWS = (Bar("Ada", 1.0, "100 %"), Bar("Bo", 0.25, "25 %", bold=True), Bar("Cy", 0.0, "0 %"))


def shapes(figure: Figure, tag: str, kind: str = "") -> list[ET.Element]:
    drawn = ET.fromstring(f"<svg>{figure.shapes}</svg>")  # noqa: S314 - our own drawing
    return [one for one in drawn.iter(tag) if not kind or one.get("class") == f"fig-{kind}"]


@pytest.mark.parametrize(("beside", "left"), [(True, SIDE), (False, 4.0)])
def test_bars_are_as_long_as_their_share(beside: bool, left: float) -> None:  # noqa: FBT001 - a parameter of the test
    figure = bars("Three", ROWS, beside=beside)
    lengths = [float(one.attrib["width"]) for one in shapes(figure, "rect", "bar")]
    assert lengths == pytest.approx([WIDTH - RIGHT - left, 0.25 * (WIDTH - RIGHT - left), 0.0], abs=0.06)


def test_every_bar_has_its_words_and_its_value() -> None:
    told = [one.text for one in shapes(bars("Three", ROWS, Cut(0.8, "cut 80 %")), "text")]
    assert told == ["cut 80 %", "Ada", "100 %", "Bo", "25 %", "Cy", "0 %", "0 %", "50 %", "100 %"]


def test_the_cut_crosses_each_bar_where_it_lies_and_is_longer_than_it() -> None:
    figure = bars("Three", ROWS, Cut(0.8, "cut 80 %"), beside=True)
    marks = [one for one in shapes(figure, "line") if float(one.attrib["y2"]) - float(one.attrib["y1"]) > 5]
    assert len(marks) == len(ROWS)
    assert {float(one.attrib["x1"]) for one in marks} == {SIDE + 0.8 * (WIDTH - RIGHT - SIDE)}
    for one, bar in zip(marks, shapes(figure, "rect", "bar"), strict=True):
        assert float(one.attrib["y1"]) < float(bar.attrib["y"])
        assert float(one.attrib["y2"]) > float(bar.attrib["y"]) + float(bar.attrib["height"])


def test_nothing_is_drawn_outside_the_figure_or_over_another_bar() -> None:
    long = "Tell from the complaint and the readings which repair an ignition failure calls for"
    figure = bars("Three", (Bar(long, 0.5, "50 %"), *ROWS))
    places = [float(one.attrib["y"]) for one in shapes(figure, "text")]
    assert min(places) > 0
    assert max(places) < figure.height
    tops = [float(one.attrib["y"]) for one in shapes(figure, "rect", "bar")]
    assert all(after - before > 14 for before, after in itertools.pairwise(tops))
    assert [one.text for one in shapes(figure, "text")][:2] == [
        "Tell from the complaint and the readings which",
        "repair an ignition failure calls for",
    ]


def test_a_long_name_beside_a_bar_is_cut_short() -> None:
    figure = bars("One", (Bar("Bartholomew Featherstonehaugh-Smith", 0.5, "50 %"),), beside=True)
    assert re.search(r">Bartholomew…<", str(figure.shapes))


def test_many_bars_take_several_figures() -> None:
    rows = [Bar(str(place), 0.5, "") for place in range(2 * MOST_BARS + 1)]
    runs = list(pages_of(rows))
    assert [len(run) for run in runs] == [MOST_BARS, MOST_BARS, 1]
    assert [bar for run in runs for bar in run] == rows
