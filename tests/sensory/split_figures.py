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


def _worth() -> float:
    """What the split of the worked example saves: 10 for the wrong remedy, and its own price.

    Prices and losses are the example's; what the panel's two answers do to the shares is ours.
    """
    shares, prices = np.array([0.45, 0.25, 0.2, 0.1]), np.array([1.0, 3.0, 2.0, 0.0])
    yes = shares @ [0.8, 0.08, 0.08, 0.08]

    def loss(known: np.ndarray) -> float:
        return float((prices + 10.0 * (1.0 - known)).min())

    after_yes, after_no = (shares_after(shares, {0: ratio}) for ratio in (0.8 / 0.08, 0.2 / 0.92))
    return loss(shares) - yes * loss(after_yes) - (1.0 - yes) * loss(after_no)


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
    "evsi": _worth,
    "post_yes": _after_yes,
    "lr_lim_hi": lambda fires, harmless: reach_of_ratio(fires, harmless)[1],
    "lr_lim_lo": lambda fires, harmless: reach_of_ratio(fires, harmless)[0],
    "headspace_o2_mgL": _oxygen_of_air,
    "grams": lambda millilitres, percent: alcohol_of(1, percent).grams * millilitres / GLASS_ML,
}
