"""Classical item statistics: facility, discrimination, coefficient alpha, and how far a score can be trusted.

Classical test theory (Lord and Novick 1968), its formulas as in any handbook of test theory; from memory. With a
handful of answers each of these numbers is mostly chance, so each comes with the count it rests on, and a
discrimination with the interval in which it may well lie.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

#: Below this many forms [-] a discrimination or an alpha is not told (common practice, no source).
FEWEST: Final = 10
#: Two-sided 95 % point of the normal distribution [-].
_NORMAL_95: Final = 1.959964
#: Below this spread [-] marks count as all alike: what is left is rounding.
_NO_SPREAD: Final = 1e-12
_LEAST_FOR_INTERVAL: Final = 4


@dataclass(frozen=True, slots=True)
class Discrimination:
    """How marks on one question go with marks on the rest of the form.

    Attributes
    ----------
    r : float
        Correlation [-], from -1 to 1.
    low, high : float
        Ends [-] of the 95 % interval (Fisher's transformation).
    count : int
        Forms it rests on [-].
    """

    r: float
    low: float
    high: float
    count: int

    @property
    def chance(self) -> bool:
        """Say whether the interval holds zero, so that chance alone may have made the number."""
        return self.low <= 0 <= self.high


def facility(shares: Sequence[float]) -> float:
    """Return the mean share of the points [-] that was reached; of right-or-wrong marks, the proportion right.

    Raises
    ------
    ValueError
        If there are no marks.
    """
    if not len(shares):
        raise ValueError("no marks, no facility")
    return float(np.mean(shares))


def correlation(marks: ArrayLike, totals: ArrayLike) -> float | None:
    """Return the product-moment correlation [-] of two rows of marks; none if either does not vary.

    Of marks 0 and 1 with totals it is the point-biserial correlation.

    Parameters
    ----------
    marks, totals : array_like, shape (n,)
        One of each for every form [any unit].
    """
    x, y = np.asarray(marks, dtype=float), np.asarray(totals, dtype=float)
    x, y = x - x.mean(), y - y.mean()
    spread = math.sqrt(float(x @ x) * float(y @ y))
    return float(x @ y) / spread if spread > _NO_SPREAD else None


def discrimination(shares: Sequence[float], rest: Sequence[float]) -> Discrimination | None:
    """Return the corrected item-total correlation: the question against the form without it.

    Parameters
    ----------
    shares : sequence of float
        Share of the question's points [-] on each form.
    rest : sequence of float
        Share of the points of all other questions [-] on the same forms.

    Returns
    -------
    Discrimination or None
        None where it cannot be told: fewer than :data:`FEWEST` forms, or marks that do not vary.

    Notes
    -----
    Leaving the question out of the total keeps it from being correlated with itself (Henrysson 1963; from memory). The
    interval is tanh(atanh(r) -+ 1.96 / sqrt(n - 3)) (Fisher 1921; from memory).
    """
    count = len(shares)
    r = correlation(shares, rest) if count >= FEWEST else None
    return None if r is None else Discrimination(r, *interval(r, count), count)


def interval(r: float, count: int) -> tuple[float, float]:
    """Return the ends [-] of the 95 % interval of a correlation that rests on ``count`` pairs [-], at least four."""
    if count < _LEAST_FOR_INTERVAL:
        raise ValueError(f"{count} pairs give no interval; it takes {_LEAST_FOR_INTERVAL}")
    if abs(r) >= 1 - _NO_SPREAD:
        return r, r
    half = _NORMAL_95 / math.sqrt(count - 3)
    return math.tanh(math.atanh(r) - half), math.tanh(math.atanh(r) + half)


def alpha(marks: ArrayLike) -> float | None:
    """Return coefficient alpha [-]: how well the parts of a form go together.

    Of marks 0 and 1 it is KR-20. Item and total variances have the same divisor, which then cancels; to mix two gives
    another, wrong number.

    Parameters
    ----------
    marks : array_like, shape (forms, parts)
        Points for each part of each form [-].

    Returns
    -------
    float or None
        None with fewer than two parts, or if the totals do not vary.

    Notes
    -----
    k / (k - 1) (1 - sum of part variances / variance of the totals); Cronbach 1951, from memory.
    """
    matrix = np.asarray(marks, dtype=float)
    parts = matrix.shape[1]
    total = float(matrix.sum(axis=1).var())
    if parts < 2 or total <= _NO_SPREAD:  # noqa: PLR2004 - one part has nothing to go together with
        return None
    return float(parts / (parts - 1) * (1 - matrix.var(axis=0).sum() / total))


def error_of_score(share: float, questions: int) -> float:
    """Return the standard error [-] of a score on questions drawn by chance: how far another form may lie from it.

    Parameters
    ----------
    share : float
        Share of the points reached [-].
    questions : int
        Number of questions [-], at least two.

    Notes
    -----
    sqrt(p (1 - p) / (n - 1)), Lord's binomial error (Lord 1957; from memory). It asks for no class, only for the length
    of the form. With partial credit it is an upper bound: no marks from 0 to 1 with mean p vary more than 0 and 1 do.

    Examples
    --------
    >>> round(20 * error_of_score(16 / 20, 20), 5)
    1.83533
    """
    return math.sqrt(share * (1 - share) / (questions - 1))
