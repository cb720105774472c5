"""Chlorine and chloramine in water, and the metabisulfite that takes them out."""

from collections.abc import Mapping

from diagnose.process.validity import require_within

_CHLORINE_MG_PER_L = (0.0, 10.0)

# Which constant holds the need for each mg of chlorine, by the salt.
NEED_BY_SALT = {
    "sodium metabisulfite": "nambs_per_cl2",
    "potassium metabisulfite": "kmbs_per_cl2",
}
# Which constant holds what a supply carries when nothing was measured, by its disinfectant.
USUAL_BY_DISINFECTANT = {"chlorine": "tap_free_chlorine", "chloramine": "tap_chloramine"}


def metabisulfite_mg(
    chlorine_mg_per_l: float,
    *,
    water_l: float,
    need_mg_per_mg: float,
    margin: float = 1.0,
) -> float:
    """Metabisulfite that takes the chlorine out of a water.

    Args:
        chlorine_mg_per_l: free chlorine and chloramine together, as Cl2 [mg/L], 0 to 10.
        water_l: water [L].
        need_mg_per_mg: bare need of the salt [mg per mg Cl2], see `NEED_BY_SALT`.
        margin: times the bare need [-]; `metabisulfite_margin` is the usual one.

    Returns:
        Dose [mg].

    Raises:
        OutsideValidity: more chlorine than a supply may carry.

    Source: reaction equations (digest 5793 as quoted), four electrons for each metabisulfite and
        two for each chlorine or chloramine. Palmer, Kaminski, Water, prints twice this need
        (2.674 mg of the sodium salt); that figure is a dose with a margin, not stoichiometry.
    """
    require_within(chlorine_mg_per_l, _CHLORINE_MG_PER_L, "a water with chlorine of mg/L")
    return chlorine_mg_per_l * water_l * need_mg_per_mg * margin


def chlorine_left_mg_per_l(
    chlorine_mg_per_l: float, *, metabisulfite_mg_per_l: float, need_mg_per_mg: float
) -> float:
    """Chlorine left in a water after a dose of metabisulfite.

    Args:
        chlorine_mg_per_l: free chlorine and chloramine together, as Cl2 [mg/L], 0 to 10.
        metabisulfite_mg_per_l: dose [mg/L].
        need_mg_per_mg: bare need of the salt [mg per mg Cl2], see `NEED_BY_SALT`.

    Returns:
        Chlorine [mg/L as Cl2]; 0 when the dose is enough.

    Raises:
        OutsideValidity: more chlorine than a supply may carry.

    Source: as for `metabisulfite_mg`.
    """
    require_within(chlorine_mg_per_l, _CHLORINE_MG_PER_L, "a water with chlorine of mg/L")
    return max(0.0, chlorine_mg_per_l - metabisulfite_mg_per_l / need_mg_per_mg)


def sulfate_from_metabisulfite_mg_per_l(
    potassium_salt_mg_per_l: float, constants: Mapping[str, float]
) -> float:
    """Sulfate that a used-up dose of potassium metabisulfite leaves.

    Args:
        potassium_salt_mg_per_l: potassium metabisulfite [mg/L].
        constants: reads `so4_per_kmbs`.

    Returns:
        Sulfate [mg/L].

    Source: molar masses; two sulfate for each metabisulfite.
    """
    return constants["so4_per_kmbs"] * potassium_salt_mg_per_l


def carried_over_mg_per_l(solution_mg_per_l: float, *, left_ml: float, beer_l: float) -> float:
    """What a sanitiser left in the vessel puts into the beer.

    Args:
        solution_mg_per_l: strength of the solution [mg/L].
        left_ml: solution left in the vessel [mL].
        beer_l: beer that goes on top [L], above zero.

    Returns:
        Strength in the beer [mg/L].

    Raises:
        OutsideValidity: no beer.

    Source: mass balance.
    """
    require_within(beer_l, (0.01, 1e6), "a batch of L")
    return solution_mg_per_l * left_ml / 1000 / beer_l


def mixed_solution_mg_per_l(stock_ml_per_l: float, stock_percent: float) -> float:
    """Strength of a sanitiser mixed from a stock.

    Args:
        stock_ml_per_l: stock over water [mL/L], none or more.
        stock_percent: what the label promises of chlorine or iodine [g per 100 mL], 0 to 100.

    Returns:
        Strength [mg/L].

    Raises:
        OutsideValidity: a dose or a strength beyond those limits.

    Source: mass balance.
    """
    require_within(stock_ml_per_l, (0.0, 1000.0), "a sanitiser stock per L of mL")
    require_within(stock_percent, (0.0, 100.0), "a stock with g in 100 mL of")
    return 10.0 * stock_ml_per_l * stock_percent
