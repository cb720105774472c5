"""What a number of batches can and cannot show, and how many more would."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy import special  # type: ignore[import-untyped]

# The choices among more batches than this are too many for a plain number.
_COUNTED_EXACTLY = 500


def adjusted(chances: Sequence[float]) -> NDArray[np.float64]:
    """p values adjusted for how many were looked at (the false discovery rate).

    Source: Benjamini Y., Hochberg Y. (1995) J. R. Stat. Soc. B 57:289.
    """
    found = np.asarray(chances, dtype=np.float64)
    order = np.argsort(-found, kind="stable")
    ranks = np.arange(found.size, 0, -1)
    least = np.minimum.accumulate(found[order] * found.size / ranks)
    result = np.empty_like(found)
    result[order] = np.minimum(least, 1.0)
    return result


def least_p(batches: int, flawed: int) -> float:
    """The smallest one-sided p of a factor that the flawed batches have, and only they."""
    if batches > _COUNTED_EXACTLY:
        log_ways = -math.log1p(batches) - special.betaln(batches - flawed + 1.0, flawed + 1.0)
        return math.exp(-log_ways)
    return 1.0 / math.comb(batches, flawed)


def can_show(batches: int, flawed: int, level: float) -> bool:
    """Whether any factor at all could be shown; if not, no test is worth its p."""
    return least_p(batches, flawed) <= level


def clean_to_show(flawed: int, level: float) -> int | None:
    """The fewest clean batches beside `flawed` ones with which a factor could be shown."""
    if flawed == 0:
        return None
    clean = 0
    while not can_show(flawed + clean, flawed, level):
        clean += 1
    return clean


def luck(rate: float, clean: int) -> float:
    """The chance that so many batches in a row are clean though nothing has changed."""
    return float((1.0 - rate) ** clean)


def clean_in_a_row(rate: float, level: float) -> int | None:
    """The shortest clean run that luck makes no more often than `level`; None for a rate of 0."""
    if rate <= 0.0:
        return None
    if rate >= 1.0:
        return 1
    fewest = math.ceil(math.log(level) / math.log1p(-rate))
    # Rounding may land one off where the run meets the level exactly.
    return next(k for k in (fewest - 1, fewest, fewest + 1) if luck(rate, k) <= level and k > 0)


def luck_by_counts(flawed: int, batches: int, clean: int) -> float:
    """The chance of so many clean batches in a row where the rate is known from a few only.

    The rate is as likely to be one as another before `flawed` of `batches` were seen; so a run
    after few batches is luck more often than the bare rate says.

    Source: beta-binomial with a uniform prior, Laplace's rule of succession.
    """
    bad, good = flawed + 1.0, batches - flawed + 1.0
    return math.exp(float(special.betaln(bad, good + clean) - special.betaln(bad, good)))


def clean_by_counts(flawed: int, batches: int, level: float) -> int:
    """The shortest clean run that luck, by the counts, makes no more often than `level`."""
    clean = 1
    while luck_by_counts(flawed, batches, clean) > level:
        clean += 1
    return clean
