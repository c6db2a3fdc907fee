"""What every check finds in every case of a unit: simulated once for all questions, and kept small.

A question needs one reading of one case, and a simulation costs as much for one case as for hundreds. So all cases
run at once, and of each run only the instant at which the check is made is kept.
"""

from collections.abc import Mapping

import numpy as np

from courseware.diagnosis.signatures import Signatures
from courseware.heater.checks import Check
from courseware.heater.simulate import Run, simulate


def runs_of(signatures: Signatures) -> Mapping[str, Run]:
    """Return a run of one instant for each check, over all atoms of a unit's hypotheses.

    Parameters
    ----------
    signatures : Signatures
        Gives the unit, its checks and its atoms, (a,).

    Returns
    -------
    mapping of check id to Run
        Cases are the atoms, in their order.
    """
    arranged: dict[tuple[str, ...], list[Check]] = {}
    for check in signatures.checks:
        arranged.setdefault(tuple(map(repr, check.changes)), []).append(check)
    found: dict[str, Run] = {}
    for checks in arranged.values():
        run = simulate(signatures.space.unit, signatures.space.atoms, checks[0].changes)
        found.update((check.id, _instant(run, check)) for check in checks)
    return found


def _instant(run: Run, check: Check) -> Run:
    """Return the run as it stands when the check is made, with the signals that it reads."""
    index = run.moments[check.moment]
    columns = np.arange(index.size)
    names = {check.signal, *(condition.signal for condition in check.given)}
    return Run(
        unit=run.unit,
        times=run.times[:1],
        signals={name: run.signals[name][index, columns][np.newaxis] for name in names},
        moments={check.moment: np.where(index < 0, -1, 0)},
        states=run.states,
    )
