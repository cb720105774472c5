"""Our models put together, or told in other units, where a printed figure needs it."""

from collections.abc import Mapping
from math import log

import numpy as np

from diagnose.process.attenuation import alcohol_factor, gravity_points
from diagnose.process.bitterness import HopCharge, bitterness_ibu, utilisation
from diagnose.process.boil import Sulfide, held_hot, stripping_per_minute
from diagnose.process.carbonation import bottle_pressure_bar, package_volumes
from diagnose.process.dms import HotSide, dms_ug_per_l, precursor_in_wort_ug_per_l
from diagnose.process.esters import SLOPE_BY_COMPOUND
from diagnose.process.heating import heating_power_w
from diagnose.process.hops import alpha_left_percent
from diagnose.process.kinetics import arrhenius_speed
from diagnose.process.light import light_dose_klux_h
from diagnose.process.mash import diastatic_power_lintner
from diagnose.process.metals import dosed_mg_per_l, metal_share
from diagnose.process.salts import molar_mass_g
from diagnose.process.water import hardness_ppm, residual_alkalinity_ppm
from diagnose.units import (
    CO2_GRAMS_PER_L_PER_VOLUME,
    GRAMS_PER_OUNCE,
    GRAMS_PER_POUND,
    LITRES_PER_US_GALLON,
    gravity_from_plato,
)

Constants = Mapping[str, float]
DEGREES_F_PER_C = 1.8
NOTHING = dict.fromkeys(HotSide.__dataclass_fields__, 0.0)


def stripping_half_life_minutes(evaporation_percent_per_h: float, constants: Constants) -> float:
    return log(2) / stripping_per_minute(evaporation_percent_per_h, constants)


def precursor_left_ug_per_l(
    start_ug_per_l: float, *, minutes: float, half_life_minutes: float
) -> float:
    wort = Sulfide(start_ug_per_l, 0.0)
    held = held_hot(
        wort, minutes=minutes, half_life_minutes=half_life_minutes, stripping_per_min=0.0
    )
    return held.precursor_ug_per_l


def precursor_of_ale_malt_ug_per_l(ale_malt_g_per_l: float, constants: Constants) -> float:
    hot_side = HotSide(**{**NOTHING, "ale_malt_g_per_l": ale_malt_g_per_l})
    return precursor_in_wort_ug_per_l(hot_side, constants)


def alpha_now_percent(
    label_percent: float, *, half_year_loss_percent: float, days: float, constants: Constants
) -> float:
    left = alpha_left_percent(
        days=days,
        stored_c=20.0,
        pack_factor=1.0,
        half_year_loss_percent=half_year_loss_percent,
        constants=constants,
    )
    return label_percent * left / 100


def ibu_of_alpha_units(
    alpha_units: float,
    *,
    wort_sg: float,
    minutes: float,
    volume_gal: float,
    constants: Constants,
) -> float:
    charge = HopCharge(GRAMS_PER_OUNCE, alpha_units, minutes)
    volume_l = volume_gal * LITRES_PER_US_GALLON
    return bitterness_ibu([charge], wort_sg=wort_sg, volume_l=volume_l, constants=constants)


def mg_per_l_of_an_ounce_in_a_gallon(constants: Constants) -> float:
    pure = HopCharge(GRAMS_PER_OUNCE, 100.0, 60.0)
    ibu = bitterness_ibu([pure], wort_sg=1.050, volume_l=LITRES_PER_US_GALLON, constants=constants)
    return ibu / utilisation(1.050, 60.0, constants)


def bare_need_mg_per_mg(sodium: int, potassium: int, constants: Constants) -> float:
    """Two molecules of chlorine for each metabisulfite."""
    atoms = {"Na": sodium, "K": potassium, "S": 2, "O": 5}
    return molar_mass_g(atoms, constants) / (2 * molar_mass_g({"Cl": 2}, constants))


def residual_alkalinity_of_calcium_ppm(calcium_mg_per_l: float, constants: Constants) -> float:
    return residual_alkalinity_ppm(
        alkalinity_ppm=0.0,
        calcium_ppm=hardness_ppm("calcium", calcium_mg_per_l, constants),
        magnesium_ppm=0.0,
        constants=constants,
    )


def sugar_per_volume_g_per_l(
    carbon: int, hydrogen: int, oxygen: int, constants: Constants
) -> float:
    """One gas for every three carbon atoms of a sugar."""
    sugar_g = molar_mass_g({"C": carbon, "H": hydrogen, "O": oxygen}, constants)
    gas_g = carbon / 3 * molar_mass_g({"C": 1, "O": 2}, constants)
    return CO2_GRAMS_PER_L_PER_VOLUME * sugar_g / gas_g


def gas_of_points_volumes(points: float, constants: Constants) -> float:
    """Gas of gravity lost in the package, with nothing left from before and no priming."""
    return package_volumes(
        residual_volumes=0.0,
        sugar_g_per_l=0.0,
        sugar_g_per_l_per_volume=1.0,
        unfinished_points=points,
        constants=constants,
    )


def drop_of_sugar_points(sugar_g_per_l: float, constants: Constants) -> float:
    """Fall in gravity when sugar ferments, its alcohol counted."""
    apparent_p = sugar_g_per_l / 10 / constants["real_extract_ae"]
    return 1000 * (gravity_from_plato(apparent_p) - 1)


def light_dose_lux_h(*, brightness_lux: float, hours: float, glass_factor: float) -> float:
    return 1000 * light_dose_klux_h(
        brightness_lux=brightness_lux, hours=hours, glass_factor=glass_factor
    )


def grist_power_lintner(*, pale_kg: float, roast_kg: float, dark_kg: float) -> float:
    return diastatic_power_lintner(
        {"pale": (pale_kg, 45.0), "roast": (roast_kg, 0.0), "dark": (dark_kg, 2.0)}
    )


def precursor_of_lager_malt_ug_per_l(lager_malt_g_per_l: float, constants: Constants) -> float:
    hot_side = HotSide(**{**NOTHING, "lager_malt_g_per_l": lager_malt_g_per_l})
    return precursor_in_wort_ug_per_l(hot_side, constants)


def dms_of_ale_malt_ug_per_l(
    *, boil_minutes: float, chill_minutes: float, constants: Constants
) -> float:
    ordinary = {
        "ale_malt_g_per_l": 200.0,
        "wort_ph": 5.3,
        "boil_minutes": boil_minutes,
        "boiling_c": 100.0,
        "evaporation_percent_per_h": 10.0,
        "chill_minutes": chill_minutes,
        "chilled_to_c": 20.0,
    }
    return dms_ug_per_l(HotSide(**{**NOTHING, **ordinary}), constants)


def speed_ratio(*, cold_c: float, warm_c: float, energy: float, constants: Constants) -> float:
    speed = arrhenius_speed(
        np.array([warm_c]), reference_c=cold_c, energy_kj_per_mol=energy, constants=constants
    )
    return float(speed[0])


def gas_held_per_atm(bottle_c: float, constants: Constants) -> float:
    one_volume_bar = bottle_pressure_bar(1.0, bottle_c, constants)
    return constants["standard_atmosphere_bar"] / one_volume_bar


def isoamyl_acetate_slope(constants: Constants) -> float:
    return constants[SLOPE_BY_COMPOUND["isoamyl_acetate"]]


def alcohol_by_factor_percent(original_p: float, apparent_p: float, constants: Constants) -> float:
    return alcohol_factor(original_p, constants) * (original_p - apparent_p)


def points_of_pounds(lines: list[list[float]], volume_gal: float) -> float:
    pound_kg, litres = GRAMS_PER_POUND / 1000, LITRES_PER_US_GALLON
    in_kg = [(lb * pound_kg, ppg * litres / pound_kg, share) for lb, ppg, share in lines]
    return gravity_points(in_kg, volume_l=volume_gal * litres)


def half_life_of_rate_minutes(rate_per_minute: float) -> float:
    return log(2) / rate_per_minute


def spread_mg_per_l(mass_mg: float, volume_l: float) -> float:
    return dosed_mg_per_l(
        solution_percent=100.0, solution_ml=mass_mg / 1000, beer_ml=1000 * volume_l
    )


def lactic_acid_in_g(acid_ml: float, constants: Constants) -> float:
    return acid_ml * constants["lactic_density"] * constants["lactic_share"]


def oxygen_for_a_batch_g(volume_l: float, oxygen_mg_per_l: float) -> float:
    return volume_l * oxygen_mg_per_l / 1000


def zinc_sulfate_mg_per_l(zinc_mg_per_l: float, constants: Constants) -> float:
    return zinc_mg_per_l / metal_share("zinc sulfate heptahydrate", constants)


def iron_of_salt_mg_per_l(salt_mg_per_l: float, constants: Constants) -> float:
    return salt_mg_per_l * metal_share("iron sulfate heptahydrate", constants)


def copper_of_trial_mg_per_l(solution_ml: float, constants: Constants) -> float:
    """A solution of 0.004 g of the salt in 100 mL, into a glass of 100 mL."""
    share = metal_share("copper sulfate pentahydrate", constants)
    return dosed_mg_per_l(
        solution_percent=0.004, solution_ml=solution_ml, beer_ml=100.0, share=share
    )


def heating_power_with_loss_w(
    *, volume_gal: float, rise_f: float, hours: float, used_share: float, constants: Constants
) -> float:
    rise_c = rise_f / DEGREES_F_PER_C
    volume_l = volume_gal * LITRES_PER_US_GALLON
    power_w = heating_power_w(volume_l, rise_c=rise_c, hours=hours, constants=constants)
    return power_w / used_share


def gallons_f_per_kwh(constants: Constants) -> float:
    one_f = 1.0 / DEGREES_F_PER_C
    power_w = heating_power_w(LITRES_PER_US_GALLON, rise_c=one_f, hours=1.0, constants=constants)
    return 1000 / power_w
