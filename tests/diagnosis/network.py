"""The same model as a Bayesian network of pgmpy: hypothesis -> atom -> complaint and every check."""

import warnings
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from courseware.diagnosis.signatures import Signatures

with warnings.catch_warnings():
    warnings.simplefilter("ignore", FutureWarning)  # pgmpy 1.1 warns about a module of its own that it imports
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork


def variable_elimination(model: Signatures) -> VariableElimination:
    """Return pgmpy's exact inference over the model; states are numbers in the model's order."""
    space = model.space
    atoms, sets = len(space.atoms), len(space.hypotheses)
    given = np.zeros((atoms, sets))
    given[np.arange(atoms), space.atom_hypothesis] = space.atom_weight / space.prior[space.atom_hypothesis]
    tables = {check.id: model.tables[check.id].T for check in model.checks}
    if model.said:
        tables["complaint"] = np.array([[float(one == said) for one in model.complaints] for said in model.said])
    network = DiscreteBayesianNetwork([("hypothesis", "atom"), *(("atom", name) for name in tables)])
    network.add_cpds(
        TabularCPD("hypothesis", sets, space.prior[:, None]),
        TabularCPD("atom", atoms, given, evidence=["hypothesis"], evidence_card=[sets]),
        *(
            TabularCPD(name, len(table), table, evidence=["atom"], evidence_card=[atoms])
            for name, table in tables.items()
        ),
    )
    network.check_model()
    return VariableElimination(network)


def states(model: Signatures, complaint: str | None, evidence: Mapping[str, str]) -> dict[str, int]:
    """Return the evidence as pgmpy wants it."""
    found = {check: model.outcomes[check].index(outcome) for check, outcome in evidence.items()}
    return found if complaint is None else found | {"complaint": list(model.said).index(complaint)}


def hypotheses_by_pgmpy(
    engine: VariableElimination, model: Signatures, complaint: str | None, evidence: Mapping[str, str]
) -> NDArray[np.float64]:
    """Return the posterior of the hypotheses, (h,)."""
    found = engine.query(["hypothesis"], evidence=states(model, complaint, evidence), show_progress=False)
    return np.asarray(found.values)
