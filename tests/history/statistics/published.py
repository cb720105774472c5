"""Tables of figures of others, and the functions of ours that each is held against."""

from collections.abc import Callable, Sequence
from functools import cache, partial
from pathlib import Path
from typing import Any

import numpy as np
from scipy import special

from diagnose.documents import parse_yaml, read_text
from diagnose.history.statistics.charts import cusum, individuals
from diagnose.history.statistics.ranks import mann_whitney
from diagnose.history.statistics.reach import adjusted, clean_in_a_row, luck
from diagnose.history.statistics.two_by_two import TwoByTwo, boschloo, fisher
from tests.history.statistics.ranges import barnard, constant
from tests.process.cards import constants

FOLDER = Path(__file__).parents[1] / "tables"
Row = dict[str, Any]
# The synthetic log of the own derivations: 5 of 6 exposed batches flawed, 0 of 8 others.
WORKED_LOG = (5, 0, 1, 8)
LUCAS = (0.8, 1.9, 1.4, 2.0, 1.1, 0.7, 2.6)
# Twenty concentrations of a textbook on statistics for engineers, recalled.
CONCENTRATIONS = (
    *(102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1),
    *(101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3, 101.4, 97.2, 101.0),
)


@cache
def rows_of(table: str) -> list[Row]:
    rows: list[Row] = parse_yaml(read_text(FOLDER / f"{table}.yaml"), table).data
    return rows


def by_number(table: Row) -> dict[float, Any]:
    return {float(key): value for key, value in table.items()}


def answer_of(row: Row) -> float:
    return float(_FUNCTIONS[row["fn"]](*row["given"]))


def _fisher(a: int, b: int, c: int, d: int, side: Any = "two-sided") -> float:
    return fisher(TwoByTwo(a, b, c, d), side)


def _boschloo_one_sided(a: int, b: int, c: int, d: int) -> float:
    """Ours is two-sided: twice the smaller one-sided p."""
    return boschloo(TwoByTwo(a, c, b, d)) / 2.0


def _rank_p(one: Sequence[float], other: Sequence[float], side: str) -> float:
    # With so far out a U the one-sided p is half of ours.
    return mann_whitney(one, other).p / (1.0 if side == "two-sided" else 2.0)


def _critical_u(n: int, _: int) -> int:
    return max(u for u in range(n * n // 2) if _p_of_u(n, u) <= 0.05)


def _p_of_u(n: int, u: int) -> float:
    """The p of two samples of n values whose U is u."""
    first = list(range(1, n + 1))
    for place in range(n - 1, -1, -1):
        step = min(u, n)
        first[place], u = first[place] + step, u - step
    rest = sorted(set(range(1, 2 * n + 1)) - set(first))
    return mann_whitney(first, rest).p


def _concentrations(what: str) -> float:
    chart = individuals(CONCENTRATIONS, constants())
    mean_range = chart.spread * constants()["chart_d2_pair"]
    parts = {"mean": chart.centre, "mrbar": mean_range, "ucl": chart.high, "lcl": chart.low}
    return parts[what]


def _sum_above(place: int, head_start: float) -> float:
    return cusum(LUCAS, constants(), head_start).above[place]


def _run_length(shift: float) -> float:
    """How many values a chart of single values takes to show a shift in spreads."""
    limit = constants()["chart_limit_spreads"]
    return 1.0 / float(special.ndtr(shift - limit) + special.ndtr(-shift - limit))


def _sums_run_length(limit: float, slack: float, shift: float) -> float:
    """How many values both sums together take to signal, exactly.

    The mean run of one sum solves an integral equation over where the sum stands; at the nodes of
    a Gauss rule it is a set of straight lines (Brook and Evans 1972 and Champ and Rigdon 1991,
    from memory). Both sums: the reciprocals of their runs add up.
    """
    return 1.0 / sum(1.0 / _one_sums_run_length(limit, slack, one) for one in (shift, -shift))


_NODES = 48


def _one_sums_run_length(limit: float, slack: float, shift: float) -> float:
    figures = {**constants(), "cusum_slack": slack, "cusum_limit": limit}
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    nodes, weights = limit * (nodes + 1.0) / 2.0, limit * weights / 2.0
    starts = np.concatenate([[0.0], nodes])
    # The value that takes our sum from where it stands to each node.
    needed = nodes[None, :] + slack - starts[:, None]
    for start, row in zip(starts[::12], needed[::12], strict=True):
        stepped = [cusum([value], figures, start).above[0] for value in row]
        np.testing.assert_allclose(stepped, nodes)
    density = np.exp(-((needed - shift) ** 2) / 2.0) / np.sqrt(2.0 * np.pi)
    moved = np.column_stack([special.ndtr(slack - starts - shift), density * weights])
    runs = np.linalg.solve(np.eye(starts.size) - moved, np.ones(starts.size))
    return float(runs[0])


_FUNCTIONS: dict[str, Callable[..., Any]] = {
    "fisher": _fisher,
    "hyper": lambda every, a, said, hits: fisher(
        TwoByTwo(hits, a - hits, said - hits, every - a - said + hits), "greater"
    ),
    "log_fisher": lambda: _fisher(*WORKED_LOG, "greater"),
    "boschloo_own": _boschloo_one_sided,
    "log_boschloo": lambda: _boschloo_one_sided(*WORKED_LOG),
    "mwu": _rank_p,
    "mwu_U": lambda one, other: mann_whitney(one, other).u,
    "mwu_crit": _critical_u,
    "bh": lambda chances, place: adjusted(chances)[place],
    "d2": partial(constant, "d2"),
    "d3": partial(constant, "d3"),
    "D4": partial(constant, "D4"),
    "E2": partial(constant, "E2"),
    "c4": partial(constant, "c4"),
    "A2": partial(constant, "A2"),
    "barnard_own": lambda *cells: barnard(*cells).pvalue,
    "barnard_stat": lambda *cells: barnard(*cells).statistic,
    "mont": _concentrations,
    "cusum_hi": _sum_above,
    "shewhart_arl": _run_length,
    "cusum_arl": _sums_run_length,
    "clean_run": clean_in_a_row,
    # Five alike in a row at even chances.
    "signtest": lambda pairs: luck(0.5, pairs),
}
