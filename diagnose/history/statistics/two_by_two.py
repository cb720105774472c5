"""Yes or no against flawed or clean: exact tests of a two-by-two table."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy import special  # type: ignore[import-untyped]

Alternative = Literal["two-sided", "less", "greater"]
# Two outcomes whose chances differ by rounding only are equally likely.
_SAME = 1.0 + 1e-7


@dataclass(frozen=True)
class TwoByTwo:
    """How many batches are flawed or clean, with something or without it."""

    flawed_with: int
    flawed_without: int
    clean_with: int
    clean_without: int

    @property
    def flawed(self) -> int:
        """How many are flawed."""
        return self.flawed_with + self.flawed_without

    @property
    def clean(self) -> int:
        """How many are clean."""
        return self.clean_with + self.clean_without

    @property
    def with_it(self) -> int:
        """How many have it."""
        return self.flawed_with + self.clean_with


def fisher(table: TwoByTwo, alternative: Alternative = "two-sided") -> float:
    """Fisher's exact test.

    Args:
        table: the counts.
        alternative: "greater": the flawed batches have it more often.

    Returns:
        The chance of a table at least as far out, given both margins.

    Source: Fisher R. A. (1935) The Design of Experiments, the tea tasting.
    """
    first, chances = _outcomes(table.flawed + table.clean, table.with_it, table.flawed)
    seen = table.flawed_with - first
    if alternative == "greater":
        return min(1.0, float(chances[seen:].sum()))
    if alternative == "less":
        return min(1.0, float(chances[: seen + 1].sum()))
    return min(1.0, float(chances[chances <= chances[seen] * _SAME].sum()))


def least_fisher(table: TwoByTwo) -> float:
    """The smallest two-sided p that any table with these margins can reach.

    It knows nothing of how the flaw fell, so leaving out what cannot reach a level is fair.

    Source: Tarone R. E. (1990) Biometrics 46:515 (from memory).
    """
    _, chances = _outcomes(table.flawed + table.clean, table.with_it, table.flawed)
    return min(1.0, float(chances[chances <= chances.min() * _SAME].sum()))


def boschloo(table: TwoByTwo) -> float:
    """Boschloo's exact test, two-sided: Fisher's p, made as sharp as an unknown rate allows.

    Two-sided as twice the smaller one-sided p. Where nothing can be compared it is 1.

    Source: Boschloo R. D. (1970) Statistica Neerlandica 24:1 (from memory); computed by scipy.
    """
    from scipy.stats import boschloo_exact  # type: ignore[import-untyped]  # noqa: PLC0415

    if 0 in (table.flawed, table.clean, table.with_it):
        return 1.0
    counts = [[table.flawed_with, table.clean_with], [table.flawed_without, table.clean_without]]
    return min(1.0, float(boschloo_exact(counts, alternative="two-sided").pvalue))


@lru_cache(maxsize=4096)
def _outcomes(every: int, with_it: int, flawed: int) -> tuple[int, NDArray[np.float64]]:
    """The least count of flawed batches with it, and the chance of that count and each greater."""
    first, last = max(0, with_it + flawed - every), min(with_it, flawed)
    counts = np.arange(first, last + 1, dtype=np.float64)
    log_ways = _log_choose(with_it, counts) + _log_choose(every - with_it, flawed - counts)
    chances = np.exp(log_ways - log_ways.max())
    return first, chances / chances.sum()


def _log_choose(of: float, chosen: NDArray[np.float64]) -> NDArray[np.float64]:
    found: NDArray[np.float64] = -np.log1p(of) - special.betaln(of - chosen + 1.0, chosen + 1.0)
    return found
