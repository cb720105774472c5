"""Metal salts: how much metal a weighed salt or a test solution brings, and what it binds."""

from collections.abc import Mapping
from types import MappingProxyType

from diagnose.process.salts import Atoms, molar_mass_g
from diagnose.process.validity import require_within

# Atoms of each salt, and its metal.
METAL_SALTS: Mapping[str, tuple[str, Atoms]] = MappingProxyType(
    {
        "zinc sulfate heptahydrate": ("Zn", {"Zn": 1, "S": 1, "O": 11, "H": 14}),
        "copper sulfate pentahydrate": ("Cu", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        "iron sulfate heptahydrate": ("Fe", {"Fe": 1, "S": 1, "O": 11, "H": 14}),
    }
)
_HYDROGEN_SULFIDE: Atoms = MappingProxyType({"H": 2, "S": 1})


def metal_share(salt: str, constants: Mapping[str, float]) -> float:
    """Mass of metal in each gram of a salt.

    Args:
        salt: a salt of `METAL_SALTS`.
        constants: as for `salts.molar_mass_g`.

    Returns:
        Share [g/g].

    Raises:
        KeyError: a salt that is not known.

    Source: standard atomic masses.
    """
    metal, atoms = METAL_SALTS[salt]
    return molar_mass_g({metal: 1}, constants) / molar_mass_g(atoms, constants)


def dosed_mg_per_l(
    *, solution_percent: float, solution_ml: float, beer_ml: float, share: float = 1.0
) -> float:
    """What a measured part of a test solution puts into a glass or a batch.

    Args:
        solution_percent: strength [g per 100 mL], 0 to 100.
        solution_ml: solution added [mL], none or more.
        beer_ml: beer it goes into [mL], above zero.
        share: share of the dissolved salt that is asked for [g/g], see `metal_share`.

    Returns:
        Strength [mg/L]; the little that the solution adds to the volume is left out.

    Raises:
        OutsideValidity: no beer, or a strength beyond those limits.

    Source: mass balance. A copper test is smelled, never tasted.
    """
    require_within(solution_percent, (0.0, 100.0), "a solution with g in 100 mL of")
    require_within(solution_ml, (0.0, 1e6), "a solution of mL")
    require_within(beer_ml, (1.0, 1e9), "a beer of mL")
    return 10_000.0 * solution_percent * solution_ml / beer_ml * share


def copper_over_sulfide(
    copper_mg_per_l: float, sulfide_ug_per_l: float, constants: Mapping[str, float]
) -> float:
    """Molecules of copper for each molecule of hydrogen sulfide.

    Args:
        copper_mg_per_l: copper [mg/L], none or more.
        sulfide_ug_per_l: hydrogen sulfide [ug/L], above zero.
        constants: as for `salts.molar_mass_g`.

    Returns:
        Ratio [mol/mol]; 1 would be just enough to bind all of it.

    Raises:
        OutsideValidity: less than no copper, or no sulfide.

    Source: molar masses; Coetzee 2020 for the excess that a trial dose has.
    """
    require_within(copper_mg_per_l, (0.0, 1e4), "copper in mg/L of")
    require_within(sulfide_ug_per_l, (1e-6, 1e7), "hydrogen sulfide in ug/L of")
    copper_mol = copper_mg_per_l / molar_mass_g({"Cu": 1}, constants)
    return 1000.0 * copper_mol * molar_mass_g(_HYDROGEN_SULFIDE, constants) / sulfide_ug_per_l
