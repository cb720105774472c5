"""Brewing water: alkalinity, and the mash pH that comes of it."""

from collections.abc import Mapping

from diagnose.process.salts import molar_mass_g
from diagnose.process.validity import require_within


def residual_alkalinity_ppm(
    *,
    alkalinity_ppm: float,
    calcium_ppm: float,
    magnesium_ppm: float,
    constants: Mapping[str, float],
) -> float:
    """Alkalinity that calcium and magnesium do not cancel in the mash.

    Args:
        alkalinity_ppm: total alkalinity [ppm as CaCO3].
        calcium_ppm: calcium hardness [ppm as CaCO3].
        magnesium_ppm: magnesium hardness [ppm as CaCO3].
        constants: reads `kolbach_ca`, `kolbach_mg`.

    Returns:
        Residual alkalinity [ppm as CaCO3]; below zero for hard water with little alkalinity.

    Source: Kolbach 1953 (as quoted). All three are as CaCO3; putting calcium in mg/L over 3.5 is
        a common error.
    """
    cancelled = calcium_ppm / constants["kolbach_ca"] + magnesium_ppm / constants["kolbach_mg"]
    return alkalinity_ppm - cancelled


def hardness_ppm(ion: str, ion_mg_per_l: float, constants: Mapping[str, float]) -> float:
    """Hardness that an ion brings.

    Args:
        ion: "calcium" or "magnesium".
        ion_mg_per_l: the ion [mg/L].
        constants: reads `caco3_per_calcium` or `caco3_per_magnesium`.

    Returns:
        Hardness [ppm as CaCO3].

    Source: molar masses.
    """
    return constants[f"caco3_per_{ion}"] * ion_mg_per_l


def alkalinity_ppm(bicarbonate_mg_per_l: float, constants: Mapping[str, float]) -> float:
    """Alkalinity that bicarbonate brings.

    Args:
        bicarbonate_mg_per_l: bicarbonate [mg/L].
        constants: reads `caco3_per_bicarbonate`.

    Returns:
        Alkalinity [ppm as CaCO3]; good below a pH of about 8.5.

    Source: molar masses.
    """
    return constants["caco3_per_bicarbonate"] * bicarbonate_mg_per_l


def grist_distilled_ph(malts: Mapping[str, tuple[float, float]]) -> float:
    """What a grist gives in distilled water.

    Args:
        malts: for each malt its mass [kg] and its pH in distilled water: `distilled_ph_base`,
            `distilled_ph_munich`, `distilled_ph_crystal` or `distilled_ph_roast`.

    Returns:
        Mash pH at room temperature [pH].

    Raises:
        OutsideValidity: no malt.

    Source: a linear buffer. Deviation: every malt is taken to buffer alike.
    """
    total_kg = sum(mass_kg for mass_kg, _ in malts.values())
    require_within(total_kg, (1e-6, 1e6), "a mash with malt of kg")
    return sum(mass_kg * malt_ph for mass_kg, malt_ph in malts.values()) / total_kg


def mash_ph(
    *,
    residual_alkalinity_ppm: float,
    water_l_per_kg: float,
    distilled_ph: float,
    acid_meq_per_kg: float,
    constants: Mapping[str, float],
) -> float:
    """Mash pH from the water, the grist and the acid.

    Args:
        residual_alkalinity_ppm: of the mash water [ppm as CaCO3].
        water_l_per_kg: mash water over grist [L/kg], 1 to 10.
        distilled_ph: what the grist gives in distilled water, at room temperature [pH].
        acid_meq_per_kg: acid over grist [mEq/kg], none or more.
        constants: reads `malt_buffer`, `caco3_mg_per_meq`.

    Returns:
        Mash pH at room temperature [pH]; good to 0.15 at best, a reading beats it.

    Raises:
        OutsideValidity: a mash thinner or thicker than those limits, or an impossible grist.

    Source: a linear buffer; its strength from practitioner posts. Troester 2009 and a study of
        2015 (J Am Soc Brew Chem, 0621-01) show that the slope of Kolbach 1953, made for wort at
        knock-out, does not hold for a mash, so it is not used here.
    """
    require_within(water_l_per_kg, (1.0, 10.0), "a mash with water per kg of L")
    require_within(distilled_ph, (4.0, 6.2), "a grist in distilled water at pH")
    alkalinity_meq = residual_alkalinity_ppm / constants["caco3_mg_per_meq"] * water_l_per_kg
    return distilled_ph + (alkalinity_meq - acid_meq_per_kg) / constants["malt_buffer"]


def acid_needed_meq(
    target_ph: float, *, distilled_ph: float, malt_kg: float, constants: Mapping[str, float]
) -> float:
    """Acid that brings a malt from its pH in distilled water to a target.

    Args:
        target_ph: pH wanted, at room temperature [pH].
        distilled_ph: what the malt gives in distilled water [pH].
        malt_kg: malt [kg].
        constants: reads `malt_buffer`.

    Returns:
        Acid [mEq]; below zero where the malt brings more than enough of its own.

    Source: a linear buffer, as in practitioner posts.
    """
    return (distilled_ph - target_ph) * malt_kg * constants["malt_buffer"]


def lactic_acid_meq(acid_ml: float, constants: Mapping[str, float]) -> float:
    """Strength of a dose of 88 % lactic acid at mash pH.

    Args:
        acid_ml: lactic acid of 88 % [mL].
        constants: reads `lactic88_strength`.

    Returns:
        Acid [mEq] at a pH of 5.4.

    Source: practitioner posts.
    """
    return acid_ml * constants["lactic88_strength"]


def lactic_strength_meq_per_ml(target_ph: float, constants: Mapping[str, float]) -> float:
    """Strength of lactic acid of 88 % at a pH.

    Args:
        target_ph: pH of the mash or water it goes into [pH], 3 to 9.
        constants: reads `lactic_density`, `lactic_share`, `lactic_pka` and the atomic masses.

    Returns:
        Acid given up [mEq/mL].

    Raises:
        OutsideValidity: a pH beyond those limits.

    Source: molar mass and one-step dissociation, density and pKa from memory.
    """
    require_within(target_ph, (3.0, 9.0), "a lactic acid at pH")
    acid_g_per_ml = constants["lactic_density"] * constants["lactic_share"]
    mole_g = molar_mass_g({"C": 3, "H": 6, "O": 3}, constants)
    given_up = 1.0 / (1.0 + 10.0 ** (constants["lactic_pka"] - target_ph))
    return 1000.0 * acid_g_per_ml / mole_g * float(given_up)
