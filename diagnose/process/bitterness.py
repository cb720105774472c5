"""Bitterness from the kettle hops, and how it stands to the strength of the beer."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import exp

import numpy as np

from diagnose.process.kinetics import arrhenius_speed
from diagnose.process.validity import require_within

# What the models of kettle hops cover.
STAND_C = (40.0, 101.0)
BOIL_SG = (1.0, 1.130)
_BOIL_C = 100.0


@dataclass(frozen=True)
class HopCharge:
    """One charge of hops in the kettle; `stand_minutes` counts time in the hot stand after it."""

    hop_g: float
    alpha_percent: float
    boil_minutes: float
    stand_minutes: float = 0.0


def utilisation(wort_sg: float, minutes: float, constants: Mapping[str, float]) -> float:
    """Share of the alpha acid that ends up as bitterness in the beer.

    Args:
        wort_sg: mean gravity of the wort in the boil [SG], 1.000 to 1.130.
        minutes: time in the boil [min], 0 to 240; little is gained past 90.
        constants: reads `tinseth_big_a`, `tinseth_big_b`, `tinseth_k`, `tinseth_div`.

    Returns:
        Utilisation [-].

    Raises:
        OutsideValidity: a gravity or a time beyond those limits.

    Source: Tinseth's hop utilisation page, for loose whole hops in a full boil.
    """
    require_within(wort_sg, BOIL_SG, "a boil gravity of SG")
    require_within(minutes, (0.0, 240.0), "a boil with hops for min")
    strength = constants["tinseth_big_a"] * float(constants["tinseth_big_b"] ** (wort_sg - 1))
    return strength * (1 - exp(-constants["tinseth_k"] * minutes)) / constants["tinseth_div"]


def stand_share(stand_c: float | None, constants: Mapping[str, float]) -> float:
    """What a minute of hot stand does for bitterness, against a minute of the boil.

    Args:
        stand_c: temperature of the stand [C], 40 to 101; None where it is not known.
        constants: reads `isomerisation_ea` and `gas_constant`; `stand_isomerisation` where the
            temperature is not known.

    Returns:
        Share [-].

    Raises:
        OutsideValidity: a stand colder or hotter than that.

    Source: Malowicki, Shellhammer 2005 (recalled) for the speed; common practice without it.
    """
    if stand_c is None:
        return constants["stand_isomerisation"]
    require_within(stand_c, STAND_C, "a hot stand at C")
    speed = arrhenius_speed(
        np.array([stand_c]),
        reference_c=_BOIL_C,
        energy_kj_per_mol=constants["isomerisation_ea"],
        constants=constants,
    )
    return float(speed[0])


def bitterness_ibu(
    charges: Iterable[HopCharge],
    *,
    wort_sg: float,
    volume_l: float,
    constants: Mapping[str, float],
    stand_c: float | None = None,
) -> float:
    """Bitterness that the kettle hops give.

    Args:
        charges: the hop additions; dry hops are not covered.
        wort_sg: mean gravity of the wort in the boil [SG].
        volume_l: finished volume [L], above zero.
        constants: reads `ibu_model_scale` besides those of `utilisation` and `stand_share`.
        stand_c: temperature of the hot stand [C], where it is known.

    Returns:
        Bitterness [IBU, mg/L]; good to 20 % at best.

    Raises:
        OutsideValidity: a gravity, time, volume or temperature beyond what the sources cover.

    Source: Tinseth's hop utilisation page.
    """
    require_within(volume_l, (0.1, 1e5), "a batch of L")
    total_mg = 0.0
    for charge in charges:
        minutes = charge.boil_minutes
        if charge.stand_minutes > 0.0:
            minutes += stand_share(stand_c, constants) * charge.stand_minutes
        alpha_mg = 1000 * charge.hop_g * charge.alpha_percent / 100
        total_mg += alpha_mg * utilisation(wort_sg, minutes, constants)
    return constants["ibu_model_scale"] * total_mg / volume_l


def bitterness_ratio(ibu: float, original_sg: float) -> float:
    """Bitterness over gravity points.

    Args:
        ibu: bitterness [IBU].
        original_sg: gravity before fermentation [SG], above 1.000.

    Returns:
        Ratio [IBU per point of gravity, a point being 0.001 SG].

    Raises:
        OutsideValidity: an original gravity of 1.001 or less, or above 1.130.

    Source: common practice, no source.
    """
    require_within(original_sg, (1.001, 1.130), "an original gravity of SG")
    return ibu / (1000 * (original_sg - 1))
