"""How much a count of right answers says: intervals and item analysis, for those who ask.

Nothing here decides anything about a person, so floats are fine.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, sqrt

FEW = 10
"""With fewer people than this, a share says too little."""
_Z = 1.959963984540054  # two-sided 95 % of the normal curve


def wilson(right: int, of: int) -> tuple[float, float]:
    """The Wilson score interval of a share at 95 %; all of 0 to 1 when nobody was asked."""
    if not of:
        return 0.0, 1.0
    share, z2 = right / of, _Z * _Z
    middle = (share + z2 / (2 * of)) / (1 + z2 / of)
    reach = _Z / (1 + z2 / of) * sqrt(share * (1 - share) / of + z2 / (4 * of * of))
    return max(0.0, middle - reach), min(1.0, middle + reach)


def kr20(rows: Sequence[Sequence[int]]) -> float | None:
    """Kuder and Richardson's formula 20 from a row of 0 and 1 for each person.

    The variance is the population's, as the p·q of the items is. None where nothing varies.
    """
    items = len(rows[0]) if rows else 0
    spread = variance([sum(row) for row in rows])
    if items < 2 or not spread:
        return None
    shares = [sum(column) / len(rows) for column in zip(*rows, strict=True)]
    return items / (items - 1) * (1 - fsum(p * (1 - p) for p in shares) / spread)


def kr21(items: int, average: float, spread: float) -> float | None:
    """Formula 21: from the average and the variance of the scores alone, items equally hard."""
    if items < 2 or not spread:
        return None
    return items / (items - 1) * (1 - average * (items - average) / (items * spread))


def point_biserial(right: Sequence[int], scores: Sequence[float]) -> float | None:
    """The correlation of one item's 0 and 1 with the scores; None where either does not vary."""
    below = sqrt(variance(right) * variance(scores))
    if not below:
        return None
    middle, level = mean(right), mean(scores)
    pairs = zip(right, scores, strict=True)
    return fsum((one - middle) * (score - level) for one, score in pairs) / len(right) / below


def mean(numbers: Sequence[float]) -> float:
    """The average; 0 of nothing."""
    return fsum(numbers) / len(numbers) if numbers else 0.0


def variance(numbers: Sequence[float]) -> float:
    """The mean square distance from the average, over all and not all but one."""
    level = mean(numbers)
    return mean([(number - level) ** 2 for number in numbers])
