"""Functions for figures of panels that taste several rounds, and of answers with "neither"."""

from collections.abc import Callable
from pathlib import Path

import numpy as np

from diagnose.documents import parse_yaml, read_text
from diagnose.sensory import (
    PairedAnswers,
    bayes_factor_by_taster,
    distance_from_ratings,
    fit_spread,
    read_paired_answers,
    read_replicated,
)
from diagnose.sensory.beta_binomial import log_likelihood_of
from diagnose.sensory.control_difference import surprise
from diagnose.sensory.distributions import highest
from diagnose.sensory.methods import METHODS
from diagnose.sensory.replicated import overdispersion

FOLDER = Path(__file__).parent / "tables"
# Step of the differences that give a curvature; six figures of a standard error.
_STEP = 1e-4


def panel_of(name: str) -> list[tuple[int, int]]:
    """Right answers and rounds of each taster of a panel worked back from its figures."""
    rows = parse_yaml(read_text(FOLDER / "worked_back_panels.yaml"), name).data
    row = next(row for row in rows if row["id"] == name)
    return [(x, row["rounds"]) for x, often in enumerate(row["tasters"]) for _ in range(often)]


def _spread_part(panel: str, guess: float, part: str) -> float:
    counts = panel_of(panel)
    fit = fit_spread(counts, guess)
    if part == "se_mu":
        return _error_of_mean(counts, guess)
    parts = {"mu": fit.able, "gamma": fit.gamma, "loglik": fit.log_likelihood}
    return {**parts, "G2_over": overdispersion(fit)}[part]


def _error_of_mean(counts: list[tuple[int, int]], guess: float) -> float:
    of, fit = log_likelihood_of(counts, guess), fit_spread(counts, guess)
    shifts = np.array([-_STEP, 0.0, _STEP])
    ((a, b, c), (d, e, f), (g, h, i)) = of(fit.able + shifts[:, None], fit.gamma + shifts)
    cross = (a - c - g + i) / 4.0
    curvature = -np.array([[b - 2 * e + h, cross], [cross, d - 2 * e + f]]) / _STEP**2
    return float(np.sqrt(np.linalg.inv(curvature)[0, 0]))


def _p_of_no_spread(panel: str, test: str) -> float:
    """Ours is halved, as gamma cannot fall below 0; the printed one is not."""
    return 2.0 * read_replicated(METHODS[test], panel_of(panel)).p_alike


def _even_factor(right: int, answers: int, guess: float) -> float:
    """With one answer each, an even prior on who can tell is one on the share right."""
    counts = [(1, 1)] * right + [(0, 1)] * (answers - right)
    return bayes_factor_by_taster(counts, guess)


def _paired(first: int, neither: int, second: int, part: int) -> float:
    found = read_paired_answers(PairedAnswers(first, neither, second))
    errors = found.bar_standard_error or 0.0, found.dprime.standard_error or 0.0
    ps = found.likelihood_root, found.likelihood_p
    return (found.bar, found.dprime.value, *errors, *ps)[part]


def _paired_end(first: int, neither: int, second: int, end: int) -> float:
    found = read_paired_answers(PairedAnswers(first, neither, second)).dprime
    return (found.low, found.high)[end]


def _same_or_different(*given: int) -> float:
    """Answers "same" and "different" are ratings in two classes: their bar, or d'."""
    same, apart, part = given[:2], given[2:4], given[4]
    dprime = distance_from_ratings(same, apart).dprime
    counts = np.array([same, apart], dtype=float)
    bar = highest(lambda x: -surprise(np.array([x]), dprime, counts), 0.01, 10.0)
    return (bar, dprime)[part]


FUNCTIONS: dict[str, Callable[..., float]] = {
    "bb": _spread_part,
    "bb_G2p": _p_of_no_spread,
    "bf_u": _even_factor,
    "twoac": _paired,
    "twoac_ci": _paired_end,
    "samediff": _same_or_different,
}
