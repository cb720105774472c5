"""Water salts: the ions that a weighed salt of a known form gives."""

from collections.abc import Mapping
from types import MappingProxyType

from diagnose.process.validity import require_within

Atoms = Mapping[str, int]

# Atoms of each ion, and the mass it is reported as.
ION_ATOMS: Mapping[str, Atoms] = MappingProxyType(
    {
        "calcium": {"Ca": 1},
        "magnesium": {"Mg": 1},
        "sodium": {"Na": 1},
        "chloride": {"Cl": 1},
        "sulfate": {"S": 1, "O": 4},
        "bicarbonate": {"H": 1, "C": 1, "O": 3},
    }
)

# Atoms of each salt, and the ions it gives to water; names as in the batch record.
SALT_ATOMS: Mapping[str, Atoms] = MappingProxyType(
    {
        "calcium sulfate dihydrate": {"Ca": 1, "S": 1, "O": 6, "H": 4},
        "calcium sulfate anhydrous": {"Ca": 1, "S": 1, "O": 4},
        "calcium chloride dihydrate": {"Ca": 1, "Cl": 2, "O": 2, "H": 4},
        "calcium chloride anhydrous": {"Ca": 1, "Cl": 2},
        "magnesium sulfate heptahydrate": {"Mg": 1, "S": 1, "O": 11, "H": 14},
        "sodium chloride": {"Na": 1, "Cl": 1},
        "sodium bicarbonate": {"Na": 1, "H": 1, "C": 1, "O": 3},
        "calcium carbonate": {"Ca": 1, "C": 1, "O": 3},
        "calcium hydroxide": {"Ca": 1, "O": 2, "H": 2},
    }
)
SALT_IONS: Mapping[str, Mapping[str, int]] = MappingProxyType(
    {
        "calcium sulfate dihydrate": {"calcium": 1, "sulfate": 1},
        "calcium sulfate anhydrous": {"calcium": 1, "sulfate": 1},
        "calcium chloride dihydrate": {"calcium": 1, "chloride": 2},
        "calcium chloride anhydrous": {"calcium": 1, "chloride": 2},
        "magnesium sulfate heptahydrate": {"magnesium": 1, "sulfate": 1},
        "sodium chloride": {"sodium": 1, "chloride": 1},
        "sodium bicarbonate": {"sodium": 1, "bicarbonate": 1},
        # Each carbonate or pair of hydroxides ends as two bicarbonates once acid meets it.
        "calcium carbonate": {"calcium": 1, "bicarbonate": 2},
        "calcium hydroxide": {"calcium": 1, "bicarbonate": 2},
    }
)

# Forms a brewer may have bought without knowing which.
UNKNOWN_FORMS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "calcium chloride form unknown": (
            "calcium chloride dihydrate",
            "calcium chloride anhydrous",
        ),
    }
)


def molar_mass_g(atoms: Atoms, constants: Mapping[str, float]) -> float:
    """Mass of a mole.

    Args:
        atoms: how many of each element.
        constants: reads `atomic_mass_` and the element, in lower case.

    Returns:
        Molar mass [g/mol].

    Source: standard atomic masses.
    """
    return sum(
        count * constants[f"atomic_mass_{element.lower()}"] for element, count in atoms.items()
    )


def ion_share(salt: str, ion: str, constants: Mapping[str, float]) -> float:
    """Mass of an ion that each gram of a salt gives.

    Args:
        salt: a salt of `SALT_ATOMS`, form and all.
        ion: an ion of `ION_ATOMS`.
        constants: as for `molar_mass_g`.

    Returns:
        Share [g/g]; 0 for an ion the salt does not give.

    Raises:
        KeyError: a salt or ion that is not known.

    Source: standard atomic masses. Alkaline salts count the bicarbonate they end as.
    """
    count = SALT_IONS[salt].get(ion, 0)
    ion_mass_g = count * molar_mass_g(ION_ATOMS[ion], constants)
    return ion_mass_g / molar_mass_g(SALT_ATOMS[salt], constants)


def ions_mg_per_l(
    salt: str, *, salt_g: float, water_l: float, constants: Mapping[str, float]
) -> dict[str, float]:
    """Every ion that a salt adds to a water.

    Args:
        salt: a salt of `SALT_ATOMS`, form and all.
        salt_g: salt [g], none or more.
        water_l: water it is spread over [L], above zero.
        constants: as for `molar_mass_g`.

    Returns:
        Rise of each ion it gives [mg/L], by ion.

    Raises:
        OutsideValidity: no water, or less than no salt.
        KeyError: a salt that is not known.

    Source: standard atomic masses and mass balance; all of it is taken to dissolve.
    """
    require_within(water_l, (0.01, 1e6), "a water of L")
    require_within(salt_g, (0.0, 1e6), "a salt of g")
    dose_mg_per_l = 1000 * salt_g / water_l
    return {ion: dose_mg_per_l * ion_share(salt, ion, constants) for ion in SALT_IONS[salt]}
