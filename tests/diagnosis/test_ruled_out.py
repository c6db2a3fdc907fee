"""Which reading rules a repair out, and which repairs what is shown calls for."""

from collections.abc import Sequence

import pytest

from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.ruled_out import RuledOut, called_for, ruled_out
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from tests.diagnosis.arrays import BAD, GOOD, bench, signatures


def weighing(factors: Sequence[float], prior: Sequence[float] = (1, 1)) -> tuple[Signatures, dict[str, str]]:
    """Return readings that are each so many times likelier with the spark at fault than with the air."""
    tables = {}
    for place, factor in enumerate(factors):
        spark, air = (0.9, 0.9 / factor) if factor >= 1 else (0.9 * factor, 0.9)
        tables[f"reading-{place}"] = [[spark, 1 - spark], [air, 1 - air]]
    return signatures([("spark",), ("air",)], prior, tables), dict.fromkeys(tables, "0")


@pytest.mark.parametrize("prior", [(1, 1), (0.001, 0.999)])
@pytest.mark.parametrize(
    ("factors", "falls_at"),
    [
        ([20.01], 0),  # strong evidence is a factor of 20
        ([19.99], None),
        ([5, 1, 5], 2),  # 5 * 5 together
        ([30, 0.1, 30], 2),  # out, back in at a factor of 3, out again at 90
        ([30, 0.1], None),
        ([30, 0.9, 1], 0),
    ],
)
def test_the_reading_that_tips_the_scale_for_good(
    factors: Sequence[float], falls_at: int | None, prior: Sequence[float]
) -> None:
    model, evidence = weighing(factors, prior)
    answers = model.space.needs[:, list(model.space.repairs).index("spark")]
    assert ruled_out(model, None, evidence, answers, Premise.ONE) == tuple(
        RuledOut(name, "0", ("air",) if place == falls_at else ()) for place, name in enumerate(evidence)
    )


def test_nothing_shown_rules_out_nothing() -> None:
    model = bench()
    assert ruled_out(model, None, {}, model.space.needs[:, 0], Premise.ONE) == ()


def test_what_is_called_for_is_what_the_readings_would_miss() -> None:
    model = bench()
    evidence = {"mirror": BAD, "gauge": BAD, "beaker": BAD}
    belief = posterior(model, "clicks", evidence)
    called = dict(zip(model.space.repairs, called_for(model, "clicks", evidence, belief.hypotheses), strict=True))
    assert called == pytest.approx({"air": 1, "spark": 1, "pump": 0, "soot": 0})


def test_either_of_two_faults_would_do_so_neither_is_called_for_where_both_are() -> None:
    # The beaker is dry for want of air, or of a pump. Given both, each alone would explain it.
    model = bench()
    belief = posterior(model, "clicks", {"beaker": BAD}, Premise.ONE_OR_TWO)
    called = dict(
        zip(model.space.repairs, called_for(model, "clicks", {"beaker": BAD}, belief.hypotheses), strict=True)
    )
    both = next(i for i, one in enumerate(model.space.hypotheses) if one.faults == ("air", "pump"))
    assert called["air"] == pytest.approx(belief.repairs["air"] - belief.hypotheses[both])


def test_a_repair_that_the_answer_includes_is_never_ruled_out() -> None:
    model = bench()
    answers = model.space.needs[:, list(model.space.repairs).index("spark")]
    for line in ruled_out(model, "clicks", {"mirror": BAD, "gauge": GOOD}, answers, Premise.ONE_OR_TWO):
        assert "spark" not in line.repairs
