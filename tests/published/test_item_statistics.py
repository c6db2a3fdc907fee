"""Item statistics against published worked examples.

Sources: ten people's answers to ten questions, from K. Wuensch's teaching page on KR-20 (matrix, p row and variance as
printed; the correlations and KR-20 recomputed from it); LSAT section 6, the 32 response patterns of Bock and Lieberman
(1970), Psychometrika 35, as distributed with R packages, and the item statistics that R's psych prints for them; Lord's
binomial error, from memory, recomputed.
"""

import itertools
import statistics
from typing import Final

import numpy as np
import pytest
from scipy import stats

from courseware.grading.item_statistics import alpha, correlation, error_of_score, facility, interval

WUENSCH: Final = np.array(
    [[int(mark) for mark in row] for row in (
        "1111110110", "1011011101", "1111011001", "0010001000", "0000010010",
        "1110111111", "1101110111", "1111111101", "0101111101", "1101101110",
    )]
)  # fmt: skip
#: How many of 1,000 gave each pattern, from 00000, 00001, 00010 to 11111.
LSAT6_COUNTS: Final = (
    3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15, 10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173, 11, 61, 28, 298,
)  # fmt: skip
LSAT6: Final = np.repeat(np.array(list(itertools.product((0, 1), repeat=5))), LSAT6_COUNTS, axis=0)


def corrected(matrix: np.ndarray, item: int) -> float:
    found = correlation(matrix[:, item], matrix.sum(axis=1) - matrix[:, item])
    assert found is not None
    return found


def test_the_matrices_are_those_published() -> None:
    assert list(WUENSCH.sum(axis=1)) == [8, 7, 7, 2, 2, 9, 8, 9, 7, 7]
    assert statistics.pvariance(map(int, WUENSCH.sum(axis=1))) == pytest.approx(5.84)  # as printed
    assert len(LSAT6) == 1000
    assert list(np.bincount(LSAT6.sum(axis=1))) == [3, 20, 85, 237, 357, 298]  # as printed


def test_facility_is_the_published_proportion_right() -> None:
    assert [facility(column) for column in WUENSCH.T] == pytest.approx(
        [0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6]
    )
    assert [facility(column) for column in LSAT6.T] == pytest.approx([0.924, 0.709, 0.553, 0.763, 0.870])


def test_alpha_of_right_or_wrong_marks_is_the_published_kr20() -> None:
    assert alpha(WUENSCH) == pytest.approx(0.696347, abs=5e-7)
    assert alpha(LSAT6) == pytest.approx(0.294997, abs=5e-7)


def test_alpha_does_not_mix_two_divisors() -> None:
    """Item variances by N with a total variance by N - 1 would give 0.737823."""
    assert alpha(WUENSCH) != pytest.approx(0.737823, abs=1e-3)


def test_the_point_biserial_correlations_are_the_published_ones() -> None:
    ten = [correlation(column, WUENSCH.sum(axis=1)) for column in WUENSCH.T]
    assert ten == pytest.approx(
        [0.7946, 0.7946, 0.2027, 0.6140, 0.7095, 0.4345, 0.1625, 0.7946, 0.0828, 0.6251], abs=5e-5
    )
    five = [correlation(column, LSAT6.sum(axis=1)) for column in LSAT6.T]
    assert five == pytest.approx([0.3620, 0.5668, 0.6184, 0.5344, 0.4354], abs=5e-5)


def test_the_corrected_correlations_are_the_published_ones() -> None:
    ten = [corrected(WUENSCH, item) for item in range(10)]
    assert ten == pytest.approx(
        [0.7059, 0.7059, 0.0000, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759], abs=5e-5
    )
    five = [corrected(LSAT6, item) for item in range(5)]
    assert five == pytest.approx([0.1128, 0.1532, 0.1728, 0.1444, 0.1216], abs=5e-5)


def test_the_correlation_is_that_of_a_reference_library() -> None:
    """scipy.stats.pointbiserialr, a general library of statistics."""
    totals = WUENSCH.sum(axis=1)
    for column in WUENSCH.T:
        assert correlation(column, totals) == pytest.approx(float(stats.pointbiserialr(column, totals).statistic))


@pytest.mark.parametrize(("slope", "count"), [(0.5, 12), (-0.3, 40), (3.0, 10), (0.0, 200)])
def test_the_interval_is_that_of_a_reference_library(slope: float, count: int) -> None:
    """scipy.stats.pearsonr and the 95 % interval it gives."""
    chance = np.random.default_rng(1)
    x = chance.normal(size=count)
    y = slope * x + chance.normal(size=count)
    reference = stats.pearsonr(x, y)
    ends = reference.confidence_interval(0.95)
    r = correlation(x, y)
    assert r == pytest.approx(float(reference.statistic))
    assert r is not None
    assert interval(r, count) == pytest.approx((float(ends.low), float(ends.high)), abs=1e-6)


def test_the_error_of_a_score_is_lords_binomial_error() -> None:
    """Of 20 questions: 1.83533 points at 16 right, 2.29416 at 10 (computed from Lord's formula, known from memory)."""
    assert 20 * error_of_score(16 / 20, 20) == pytest.approx(1.83533, abs=5e-6)
    assert 20 * error_of_score(10 / 20, 20) == pytest.approx(2.29416, abs=5e-6)
