"""Functions for figures of split batches: what a panel says of a cause, and what is poured."""

from collections.abc import Callable

import numpy as np

from diagnose.inference.ranking import entropy_bits
from diagnose.process.oxygen import packaged_oxygen_mg_per_l
from diagnose.trial.gains import expected_bits, shares_after
from diagnose.trial.likelihood import Readout, reach_of_ratio
from diagnose.trial.safety import GLASS_ML, alcohol_of
from tests.process.cards import constants


def _bits(shares: list[float]) -> float:
    return float(entropy_bits(np.array(shares)))


def _sure_readout(if_so: float, if_not: float) -> Readout:
    """Yes or no, with the chance of a yes if the suspect is responsible and if it is not."""
    so, other = (np.array([yes, 1.0 - yes]) for yes in (if_so, if_not))
    return Readout(so, other, so / other)


def _expected(shares: list[float], if_so: float, if_not: float) -> float:
    return expected_bits(np.array(shares), {0: _sure_readout(if_so, if_not)})


def _after_yes(shares: list[float], if_so: float, if_not: float) -> float:
    return float(shares_after(np.array(shares), {0: if_so / if_not})[0])


def _oxygen_of_air(air_ml: float, beer_l: float) -> float:
    return packaged_oxygen_mg_per_l(
        dissolved_mg_per_l=0.0,
        headspace_ml=air_ml,
        beer_l=beer_l,
        air_left_share=1.0,
        constants=constants(),
    )


FUNCTIONS: dict[str, Callable[..., float]] = {
    "H": _bits,
    "H2": lambda share: _bits([share, 1.0 - share]),
    "eig": _expected,
    "post_yes": _after_yes,
    "lr_lim_hi": lambda fires, harmless: reach_of_ratio(fires, harmless)[1],
    "lr_lim_lo": lambda fires, harmless: reach_of_ratio(fires, harmless)[0],
    "headspace_o2_mgL": _oxygen_of_air,
    "grams": lambda millilitres, percent: alcohol_of(1, percent).grams * millilitres / GLASS_ML,
}
