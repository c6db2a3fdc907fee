"""A lesson's procedure is carried out when the lesson is loaded: a wrong list is refused at the line of the step."""

from pathlib import Path

import pytest

from courseware.publish.blocks.procedure import JobSheet
from courseware.publish.teaching import View
from courseware.safework.model import Procedure
from courseware.safework.work import steps_on
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

#: The block stands on line 16 of the file, so its first step stands on line 21.
HEAD = "```procedure\nprocedure: ignition-test\nparts:\n  - title: All of it\n    steps:\n"
FIRST = 21


def listing(names: list[str]) -> str:
    steps = "".join(f"      - {{step: {name}}}\n" for name in names)
    return with_body(f"{HEAD}{steps}```\n").replace("see-the-spark", "order-the-test")


@pytest.fixture
def procedure(shipped: Shipped) -> Procedure:
    return shipped.teaching.safework.procedures["ignition-test"]


@pytest.fixture
def names(procedure: Procedure) -> list[str]:
    return [step.id for step in procedure.steps]


def moved(names: list[str], name: str, before: str) -> tuple[list[str], int]:
    """Return the list with one step moved before another, and the line it then stands on."""
    left = [one for one in names if one != name]
    place = left.index(before)
    return [*left[:place], name, *left[place:]], FIRST + place


def test_the_authors_order_is_right_and_numbered_for_each_unit(
    tmp_path: Path, shipped: Shipped, procedure: Procedure, names: list[str]
) -> None:
    lesson, problems = read_lesson(tmp_path, listing(names), shipped.teaching)
    assert problems == ""
    block = lesson.pieces[-1]
    assert isinstance(block, JobSheet)
    for column, unit in enumerate(block.units):
        numbers = [row.numbers[column] for _, rows in block.parts for row in rows]
        assert [number for number in numbers if number] == list(range(1, len(steps_on(procedure, unit)) + 1))
    html = block.html(View(paper=True)).unescape()
    assert f"against {len(shipped.teaching.safework.rules)} never-rules" in html
    notes = {step.id: step.note for step in procedure.steps}
    assert notes["proved"] in html  # a step without the lesson's own words shows the procedure's note


def test_a_step_that_breaks_a_rule_is_refused_with_the_rules_reason(
    tmp_path: Path, shipped: Shipped, procedure: Procedure, names: list[str]
) -> None:
    # The cover opened before the controls are tried: 29 CFR 1910.147(d)(6) asks for the try before the work.
    order, line = moved(names, "open", "try")
    _, problems = read_lesson(tmp_path, listing(order), shipped.teaching)
    rule = shipped.teaching.safework.rules["controls-not-tried"]
    assert problems == "\n".join(
        f"modules/spark.md:{line}: lesson 'spark', block 'procedure': the step 'open', done here on the {unit.title}, "
        f"breaks a never-rule. {rule.signal_word}: {rule.title} {rule.reason}\n"
        f"    try: follow the order of the procedure at {procedure.source}"
        for unit in sorted(shipped.teaching.trade.units.values(), key=lambda unit: unit.title)
    )


def test_the_oil_of_a_metered_unit_must_be_shut_off(tmp_path: Path, shipped: Shipped, names: list[str]) -> None:
    # Common practice: with metered oil, taking the air off does not stop the oil. Without these steps the
    # lesson is refused on the metered unit and on no other.
    order = [name for name in names if name not in ("valve-shut", "pump-off", "pump-on", "valve-open")]
    _, problems = read_lesson(tmp_path, listing(order), shipped.teaching)
    units = shipped.teaching.trade.units.values()
    metered = next(unit for unit in units if unit.features["delivery"] == "metered")
    siphon = next(unit for unit in units if unit.features["delivery"] == "siphon")
    assert f"steps are missing on the {metered.title}: pump-off, pump-on, valve-open, valve-shut" in problems
    assert siphon.title not in problems


def test_steps_left_out_are_told_by_id(
    tmp_path: Path, shipped: Shipped, procedure: Procedure, names: list[str]
) -> None:
    order = [name for name in names if name not in ("tell", "record")]
    _, problems = read_lesson(tmp_path, listing(order), shipped.teaching)
    for unit in shipped.teaching.trade.units.values():
        assert (
            f"modules/spark.md:18: lesson 'spark', block 'procedure': steps are missing on the {unit.title}: "
            "record, tell\n"
            f"    try: teach every step of the procedure at {procedure.source}"
        ) in problems


def test_a_step_too_early_is_told_even_where_no_rule_is_broken(
    tmp_path: Path, shipped: Shipped, procedure: Procedure, names: list[str]
) -> None:
    order, line = moved(names, "down", "read")
    _, problems = read_lesson(tmp_path, listing(order), shipped.teaching)
    actions = shipped.teaching.safework.actions
    assert problems == "\n".join(
        f"modules/spark.md:{line}: lesson 'spark', block 'procedure': the step 'down' is wrong here on "
        f"the {unit.title}: "
        f"'{actions['turn-down'].title}' comes before '{actions['read-up'].title}', which must come first.\n"
        f"    try: follow the order of the procedure at {procedure.source}"
        for unit in sorted(shipped.teaching.trade.units.values(), key=lambda unit: unit.title)
    )


def test_another_allowed_order_is_as_good(tmp_path: Path, shipped: Shipped, names: list[str]) -> None:
    order, _ = moved(names, "protect", "read")  # glasses before the manual: no precedence between the two
    assert order != names
    assert read_lesson(tmp_path, listing(order), shipped.teaching)[1] == ""


def test_an_unknown_step_is_told_with_the_nearest(tmp_path: Path, shipped: Shipped, names: list[str]) -> None:
    _, problems = read_lesson(tmp_path, listing(["raed", *names[1:]]), shipped.teaching)
    head, allowed, advice = problems.split("\n")
    assert head == (
        f"modules/spark.md:{FIRST}: lesson 'spark', block 'procedure', part 1, step 1: "
        "'step' names the step 'raed', which does not exist"
    )
    assert allowed == f"    allowed: {', '.join(sorted(names))}"
    assert advice == "    try: did you mean 'read'?"


def test_in_a_bank_with_faults_nothing_is_carried_out(tmp_path: Path, names: list[str]) -> None:
    _, problems = read_lesson(tmp_path, listing(names).replace("order-the-test", "see-the-spark"))
    assert problems == (
        "modules/spark.md:17: lesson 'spark', block 'procedure': "
        "'procedure' names the procedure 'ignition-test', which does not exist"
    )
