"""Salts weighed and waters mixed: forms, the scale's doubt, a stock solution, a mixture."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.process.salts import UNKNOWN_FORMS, ions_mg_per_l
from diagnose.process.validity import require_within

# These hardly dissolve in plain water, so no stock solution can be made of them (from memory).
_HARDLY_DISSOLVES = frozenset(
    {
        "calcium sulfate dihydrate",
        "calcium sulfate anhydrous",
        "calcium carbonate",
        "calcium hydroxide",
    }
)
# A dose is worth weighing where the scale is off by no more than this; judgement.
GOOD_ENOUGH_PERCENT = 10.0
_STOCK_ERROR_PERCENT = 5.0
# What dissolves with room to spare in cold water; judgement. Sodium bicarbonate stays below 69 g/L
# at 0 C and 96 g/L at 20 C (from memory), and hot water drives its carbon dioxide off.
_STOCK_ML_PER_G = 10.0
_WEAKER_STOCK_ML_PER_G = {"sodium bicarbonate": 20.0}


@dataclass(frozen=True)
class Stock:
    """A solution that carries a small dose: so much salt in so much water, and the part to take.

    `soluble` is False for a salt that would not dissolve; it is then a heap to be divided.
    """

    salt_g: float
    made_up_to_ml: float
    dose_ml: float
    soluble: bool


def forms_of(salt: str) -> tuple[str, ...]:
    """The forms a salt may have: itself, or each form it could be where that is not known."""
    return UNKNOWN_FORMS.get(salt, (salt,))


def ions_by_form_mg_per_l(
    salt: str, *, salt_g: float, water_l: float, constants: Mapping[str, float]
) -> dict[str, dict[str, float]]:
    """What a salt adds to a water, for each form it may have.

    Args:
        salt: a salt of the record; its form may be unknown.
        salt_g: salt [g], none or more.
        water_l: water it is spread over [L], above zero.
        constants: as for `salts.molar_mass_g`.

    Returns:
        Rise of each ion [mg/L], by form and ion: 5 g of calcium chloride in 20 L give calcium 68
        and chloride 121 as dihydrate, 90 and 160 without water.

    Raises:
        OutsideValidity: no water, or less than no salt.
        KeyError: a salt that is not known.

    Source: as for `salts.ions_mg_per_l`.
    """
    return {
        form: ions_mg_per_l(form, salt_g=salt_g, water_l=water_l, constants=constants)
        for form in forms_of(salt)
    }


def scale_error_percent(salt_g: float, scale_step_g: float) -> float:
    """How far off a weighed dose may be for the steps of the scale alone.

    Args:
        salt_g: salt as the scale showed it [g], above zero.
        scale_step_g: smallest step of the scale [g], above zero.

    Returns:
        Error to either side [%]: half a step over the dose. 0.4 g on a scale of 1 g: 125 %.

    Raises:
        OutsideValidity: no salt, or a scale without a step.

    Source: definition; a scale has other faults besides, which a known weight shows.
    """
    require_within(salt_g, (1e-6, 1e6), "a weighed salt of g")
    require_within(scale_step_g, (1e-6, 1e6), "a scale with steps of g")
    return 100.0 * scale_step_g / 2.0 / salt_g


def stock_for(salt: str, *, salt_g: float, scale_step_g: float) -> Stock:
    """A solution, or a heap to divide, of which a part holds a dose too small for the scale.

    Args:
        salt: a salt of the record.
        salt_g: the dose wanted [g], above zero.
        scale_step_g: smallest step of the scale [g], above zero.

    Returns:
        A stock whose weighing is off by 5 % at most, with 10 mL for each gram, 20 mL for each of
        sodium bicarbonate.

    Raises:
        OutsideValidity: as for `scale_error_percent`.

    Source: arithmetic; the 5 % and the strengths are judgements.
    """
    scale_error_percent(salt_g, scale_step_g)
    ml_per_g = _WEAKER_STOCK_ML_PER_G.get(salt, _STOCK_ML_PER_G)
    stock_g = 100.0 * scale_step_g / 2.0 / _STOCK_ERROR_PERCENT
    return Stock(
        salt_g=stock_g,
        made_up_to_ml=ml_per_g * stock_g,
        dose_ml=ml_per_g * salt_g,
        soluble=salt not in _HARDLY_DISSOLVES,
    )


def mixed_mg_per_l(parts: Iterable[tuple[float, float]]) -> float:
    """Strength of a mixture of waters.

    Args:
        parts: for each water its volume [L] and its strength [mg/L].

    Returns:
        Strength of the mixture [mg/L].

    Raises:
        OutsideValidity: no water at all.

    Source: mass balance.
    """
    waters = tuple(parts)
    total_l = sum(litres for litres, _ in waters)
    require_within(total_l, (0.01, 1e6), "a water of L")
    return sum(litres * strength for litres, strength in waters) / total_l
