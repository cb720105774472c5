"""Tables of figures, and the functions of ours that each kind of figure is held against."""

from collections.abc import Callable
from dataclasses import replace
from math import sqrt
from pathlib import Path
from typing import Any

import numpy as np

from diagnose.documents import parse_yaml, read_text
from diagnose.sensory import (
    METHODS,
    Method,
    SingleGlasses,
    able_estimate,
    bayes_factor_at,
    chance_to_find,
    critical,
    distance_from_ratings,
    dprime_estimate,
    dprime_from_share,
    exact_p,
    first_and_safe,
    fisher_p,
    power_by_able,
    power_by_dprime,
    read_a_not_a,
    read_ratings,
    share_from_able,
    share_interval,
    share_right,
    similarity_p,
    wald_lines,
)
from diagnose.sensory.control_difference import (
    least_rank_sum,
    surprise,
    surprise_if_same,
)
from diagnose.sensory.psychometric import slope
from diagnose.sensory.similarity import chances_to_rule_out, similarity_limit, similarity_sizes
from tests.sensory import near_figures, rounds_figures, split_figures

FOLDER = Path(__file__).parent / "tables"
_NAMES = {
    **{"twoAFC": "2-afc", "threeAFC": "3-afc", "duotrio": "duo-trio"},
    "tetrad_specified": "tetrad-specified",
}
Row = dict[str, Any]


def rows_of(table: str) -> list[Row]:
    rows: list[Row] = parse_yaml(read_text(FOLDER / f"{table}.yaml"), table).data
    return [{key: _by_number(value) for key, value in row.items()} for row in rows]


def _by_number(value: Any) -> Any:
    """A table within a row, with the numbers that its keys stand for."""
    return {float(k): v for k, v in value.items()} if isinstance(value, dict) else value


def method(name: str) -> Method:
    return METHODS[_NAMES.get(name, name)]


def lucky(guess: float) -> Method:
    """A test of which only the luck counts."""
    return replace(METHODS["triangle"], guess=guess)


def answer_of(row: Row) -> float:
    return float(_FUNCTIONS[row["fn"]](*row["given"]))


def _share_end(right: int, answers: int, kind: str, end: int) -> float:
    plain = lucky(1e-9)
    if kind == "likelihood":
        return share_interval(plain, right, answers)[end]
    found = able_estimate(plain, right, answers)
    return (found.low, found.high)[end]


def _dprime_end(
    right: int, answers: int, test: str, kind: str, end: int, level: float = 0.95
) -> float:
    if kind == "likelihood":
        found = dprime_estimate(method(test), right, answers, level)
        return (found.low, found.high)[end]
    able = able_estimate(method(test), right, answers, level)
    return dprime_from_share(
        method(test), share_from_able(method(test), (able.low, able.high)[end])
    )


def _error_of_able(right: int, answers: int, test: str) -> float:
    return able_estimate(method(test), right, answers).standard_error or 0.0


def _error_rescaled(able: float, error: float, test: str) -> float:
    dprime = dprime_from_share(method(test), share_from_able(method(test), able))
    return error * (1.0 - method(test).guess) / slope(method(test), dprime)


def _glasses(hits: int, a: int, false: int, others: int) -> SingleGlasses:
    return SingleGlasses(hits, a, false, others)


def _interval_of_glasses(hits: int, a: int, false: int, others: int, end: int) -> float:
    found = read_a_not_a(_glasses(hits, a, false, others)).dprime
    return (found.low, found.high)[end]


def _fisher(a: int, b: int, c: int, d: int, side: str) -> float:
    if side == "less":
        return fisher_p(SingleGlasses(c, c + d, a, a + b))
    return fisher_p(SingleGlasses(a, a + b, c, c + d))


def _hyper(glasses: int, a: int, said: int, hits: int) -> float:
    others = glasses - a
    return fisher_p(SingleGlasses(hits, a, said - hits, others))


def _rated(control: list[int], test: list[int], part: str) -> float:
    found = distance_from_ratings(control, test)
    parts = {"d": found.dprime, "se_d": found.standard_error, "p": found.p}
    return {**parts, "root": found.likelihood_root}[part]


def _surprise(bounds: list[float], dprime: float, control: list[int], test: list[int]) -> float:
    return surprise(np.array(bounds, dtype=float), dprime, np.array([control, test], dtype=float))


def _rank_limit(tasters: int) -> float:
    """Two-sided tables at 0.05 list the lower rank sum."""
    least, _ = least_rank_sum(tasters, 0.025)
    return tasters * (tasters + 1) // 2 - (least or 0)


def _limit_of_share(answers: int, share: float, alpha: float) -> float:
    able = (share - 0.5) / 0.5
    return similarity_limit(METHODS["duo-trio"], answers, able, alpha).most_right or 0


def _power_to_rule_out(
    truth: float, able: float, answers: int, alpha: float, guess: float
) -> float:
    chances = chances_to_rule_out(lucky(guess), np.array([answers]), (able, truth), alpha)
    return float(chances[0])


def _power_beyond(
    able: float, answers: int, alpha: float, guess: float, alike: float = 0.0
) -> float:
    """Against luck, or against a share of tasters able to tell that does not matter yet."""
    if not alike:
        return power_by_able(lucky(guess), answers, alpha, able)
    share = share_from_able(lucky(guess), able)
    return chance_to_find(lucky(share_from_able(lucky(guess), alike)), answers, alpha, share)


def _sizes(able: float, alpha: float, power: float, guess: float) -> tuple[int | None, int | None]:
    share = share_from_able(lucky(guess), able)
    return first_and_safe(lucky(guess), share, alpha=alpha, power=power)


def _sizes_d(d: float, alpha: float, power: float, test: str) -> tuple[int | None, int | None]:
    share = float(share_right(method(test), d))
    return first_and_safe(method(test), share, alpha=alpha, power=power)


def _sizes_similar(able: float, truth: float, alpha: float, power: float, guess: float) -> float:
    first, _ = similarity_sizes(lucky(guess), (able, truth), alpha=alpha, power=power)
    return first or 0


def _line(test: str, d: float, alpha: float, miss: float, part: int) -> float:
    lines = wald_lines(method(test), float(share_right(method(test), d)), alpha, miss)
    return (lines.slope, lines.same_intercept, lines.different_intercept)[part]


_FUNCTIONS: dict[str, Callable[..., Any]] = {
    **near_figures.FUNCTIONS,
    **rounds_figures.FUNCTIONS,
    **split_figures.FUNCTIONS,
    "psy": lambda d, test: share_right(method(test), d),
    "pc_ncf": lambda d: share_right(METHODS["triangle"], d),
    "psyinv": lambda share, test: dprime_from_share(method(test), share),
    "psyderiv": lambda d, test: slope(method(test), d),
    "d_hat": lambda x, n, test: dprime_estimate(method(test), x, n).value,
    "se_d": lambda x, n, test: dprime_estimate(method(test), x, n).standard_error,
    "se_pd": _error_of_able,
    "se_pc": lambda x, n: _error_of_able(x, n, "2-afc") * (1.0 - METHODS["2-afc"].guess),
    "double_duotrio_inv": lambda share: dprime_from_share(METHODS["duo-trio"], sqrt(share)),
    "ci_pc": _share_end,
    "ci_d": _dprime_end,
    "p_diff": lambda x, n, guess: exact_p(lucky(guess), x, n),
    "p_sim_pd": lambda x, n, guess, able: similarity_p(
        lucky(guess), x, n, share_from_able(lucky(guess), able)
    ),
    "p_sim_d": lambda x, n, test, d: similarity_p(
        method(test), x, n, float(share_right(method(test), d))
    ),
    "rescale_d": lambda able, test: dprime_from_share(
        method(test), share_from_able(method(test), able)
    ),
    "rescale_se": _error_rescaled,
    "crit": lambda n, guess, alpha: critical(lucky(guess), n, alpha).least_right,
    "crit_sim": _limit_of_share,
    "power_pd": _power_beyond,
    "power_d": lambda d, n, alpha, test: power_by_dprime(method(test), n, alpha, d),
    "power_sim": _power_to_rule_out,
    "ss_pd": lambda *given: _sizes(*given)[0],
    "ss_pd_stable": lambda *given: _sizes(*given)[1],
    "ss_d": lambda *given: _sizes_d(*given)[0],
    "ss_d_stable": lambda *given: _sizes_d(*given)[1],
    "ss_sim": _sizes_similar,
    "anota_d": lambda *given: read_a_not_a(_glasses(*given)).dprime.value,
    "anota_se": lambda *given: read_a_not_a(_glasses(*given)).dprime.standard_error,
    "anota_p": lambda *given: read_a_not_a(_glasses(*given)).p,
    "anota_ci": _interval_of_glasses,
    "auc": lambda *given: read_a_not_a(_glasses(*given)).area,
    "dod_nll": _surprise,
    "dod_null": lambda control, test: surprise_if_same(np.array([control, test], dtype=float)),
    "dod_fit": _rated,
    "fisher": _fisher,
    "hyper": _hyper,
    "wilcoxon_crit": _rank_limit,
    "wilcoxon_p": lambda gaps: read_ratings(gaps, [0] * len(gaps)).p_two_sided,
    "bf_point": lambda x, n, test, d: bayes_factor_at(method(test), x, n, d),
    "sprt": _line,
}
