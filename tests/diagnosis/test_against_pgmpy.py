"""The posterior against an independent program: variable elimination of pgmpy, to 1e-9."""

import pytest

from courseware.diagnosis.posterior import posterior
from tests.diagnosis.arrays import random_evidence, random_model
from tests.diagnosis.network import hypotheses_by_pgmpy, variable_elimination


@pytest.mark.parametrize("seed", range(5))
def test_random_models(seed: int) -> None:
    model = random_model(seed)
    engine = variable_elimination(model)
    for draw in range(10):
        complaint, evidence = random_evidence(model, 100 * seed + draw, draw % 6)
        expected = hypotheses_by_pgmpy(engine, model, complaint, evidence)
        assert posterior(model, complaint, evidence).hypotheses == pytest.approx(expected, abs=1e-9)
