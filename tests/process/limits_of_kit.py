"""As `limits`, for water, ingredients, package and kit."""

from tests.process.limits import DAY, MALT, Limited, held

WATER = (
    Limited("water.grist_distilled_ph", {"malts": {"base": (4.0, 5.7)}}, {"malts": (MALT,)}),
    Limited(
        "water.mash_ph",
        {
            "residual_alkalinity_ppm": 50.0,
            "water_l_per_kg": 3.0,
            "distilled_ph": 5.7,
            "acid_meq_per_kg": 0.0,
        },
        {"water_l_per_kg": (0.9, 10.1), "distilled_ph": (3.9, 6.3)},
    ),
    Limited("water.lactic_strength_meq_per_ml", {"target_ph": 5.4}, {"target_ph": (2.9, 9.1)}),
    Limited(
        "salts.ions_mg_per_l",
        {"salt": "sodium chloride", "salt_g": 1.0, "water_l": 20.0},
        {"salt_g": (-0.1, 1.1e6), "water_l": (0.0, 1.1e6)},
    ),
    Limited(
        "dosing.ions_by_form_mg_per_l",
        {"salt": "calcium chloride form unknown", "salt_g": 5.0, "water_l": 20.0},
        {"salt_g": (-0.1, 1.1e6), "water_l": (0.0, 1.1e6)},
    ),
    Limited(
        "dosing.scale_error_percent",
        {"salt_g": 0.4, "scale_step_g": 1.0},
        {"salt_g": (0.0, 1.1e6), "scale_step_g": (0.0, 1.1e6)},
    ),
    Limited(
        "dosing.stock_for",
        {"salt": "sodium chloride", "salt_g": 0.4, "scale_step_g": 1.0},
        {"salt_g": (0.0, 1.1e6), "scale_step_g": (0.0, 1.1e6)},
    ),
    Limited("dosing.mixed_mg_per_l", {"parts": [(20.0, 50.0)]}, {"parts": ([], [(0.0, 50.0)])}),
    Limited(
        "chlorine.metabisulfite_mg",
        {"chlorine_mg_per_l": 1.0, "water_l": 30.0, "need_mg_per_mg": 1.34},
        {"chlorine_mg_per_l": (-0.1, 10.1)},
    ),
    Limited(
        "chlorine.chlorine_left_mg_per_l",
        {"chlorine_mg_per_l": 1.0, "metabisulfite_mg_per_l": 1.0, "need_mg_per_mg": 1.34},
        {"chlorine_mg_per_l": (-0.1, 10.1)},
    ),
    Limited(
        "chlorine.carried_over_mg_per_l",
        {"solution_mg_per_l": 25.0, "left_ml": 50.0, "beer_l": 20.0},
        {"beer_l": (0.0, 1.1e6)},
    ),
    Limited(
        "chlorine.mixed_solution_mg_per_l",
        {"stock_ml_per_l": 1.0, "stock_percent": 5.0},
        {"stock_ml_per_l": (-0.1, 1001.0), "stock_percent": (-0.1, 100.1)},
    ),
)

INGREDIENTS = (
    Limited(
        "hops.loss_rate_per_day",
        {"half_year_loss_percent": 30.0},
        {"half_year_loss_percent": (-0.1, 95.1)},
    ),
    Limited("hops.cold_factor", {"stored_c": 4.0}, {"stored_c": (-40.1, 25.1)}),
    Limited(
        "hops.alpha_left_percent",
        {"days": 180.0, "stored_c": 4.0, "pack_factor": 1.0, "half_year_loss_percent": 30.0},
        {
            "days": (-0.1, 3651.0),
            "stored_c": (-40.1, 25.1),
            "half_year_loss_percent": (-0.1, 95.1),
        },
    ),
    Limited("hops.loss_from_index_percent", {"storage_index": 0.3}, {"storage_index": (0.1, 2.6)}),
    Limited(
        "ingredients.months_at_20c",
        {"months": 6.0, "stored_c": 20.0},
        {"months": (-0.1, 240.1), "stored_c": (-25.1, 45.1)},
    ),
    Limited(
        "ingredients.extract_age_fraction",
        {"months_sealed": 6.0, "months_open": 1.0, "stored_c": 20.0, "shelf_months": 24.0},
        {
            "months_sealed": (-9.0, 241.0),
            "stored_c": (-25.1, 45.1),
            "shelf_months": (0.0, 240.1),
        },
    ),
    Limited(
        "ingredients.malt_age_fraction",
        {"months": 6.0, "shelf_months": 18.0},
        {"months": (-0.1, 240.1), "shelf_months": (0.0, 240.1)},
    ),
    Limited(
        "metals.dosed_mg_per_l",
        {"solution_percent": 1.0, "solution_ml": 1.0, "beer_ml": 100.0},
        {"solution_percent": (-0.1, 100.1), "solution_ml": (-0.1, 1.1e6), "beer_ml": (0.0, 1.1e9)},
    ),
    Limited(
        "metals.copper_over_sulfide",
        {"copper_mg_per_l": 0.5, "sulfide_ug_per_l": 10.0},
        {"copper_mg_per_l": (-0.1, 1.1e4), "sulfide_ug_per_l": (0.0, 1.1e7)},
    ),
)

PACKAGE = (
    Limited("carbonation.residual_volumes", {"warmest_c": 20.0}, {"warmest_c": (-0.1, 40.1)}),
    Limited(
        "carbonation.gauge_pressure_bar",
        {"volumes": 2.4, "beer_c": 4.0},
        {"volumes": (1.4, 3.6), "beer_c": (-0.1, 18.4)},
    ),
    Limited(
        "carbonation.keg_volumes",
        {"gauge_bar": 0.8, "beer_c": 4.0},
        {"gauge_bar": (-0.9, 4.0), "beer_c": (-0.1, 18.4)},
    ),
    Limited(
        "carbonation.package_volumes",
        {
            "residual_volumes": 0.85,
            "sugar_g_per_l": 6.0,
            "sugar_g_per_l_per_volume": 4.0,
            "unfinished_points": 0.0,
        },
        {"sugar_g_per_l": (-0.1, 100.1), "unfinished_points": (-0.1, 100.1)},
    ),
    Limited(
        "carbonation.bottle_pressure_bar",
        {"volumes": 2.4, "bottle_c": 20.0},
        {"volumes": (-0.1, 8.1), "bottle_c": (-0.1, 40.1)},
    ),
    Limited(
        "carbonation.held_volumes",
        {"absolute_bar": 2.0, "beer_c": 20.0},
        {"absolute_bar": (-0.1, 10.1), "beer_c": (-0.1, 40.1)},
    ),
    Limited("oxygen.air_oxygen_mg", {"air_ml": 25.0}, {"air_ml": (-0.1, 1.1e6)}),
    Limited(
        "oxygen.packaged_oxygen_mg_per_l",
        {
            "dissolved_mg_per_l": 0.7,
            "headspace_ml": 25.0,
            "beer_l": 0.5,
            "air_left_share": 1.0,
        },
        {"headspace_ml": (-0.1,), "beer_l": (0.0, 1.1e5), "air_left_share": (-0.1, 1.1)},
    ),
    Limited(
        "oxygen.shaken_oxygen",
        {"dissolved": 100.0, "headspace_ml": 15.0, "beer_ml": 355.0},
        {"beer_ml": (0.0, 1.1e8)},
    ),
    Limited(
        "staling.storage_days_at_20c",
        {"hours": DAY, "store_c": held(20.0)},
        {"store_c": (held(-5.1), held(45.1))},
    ),
    Limited(
        "light.light_dose_klux_h",
        {"brightness_lux": 500.0, "hours": 10.0, "glass_factor": 1.0},
        {
            "brightness_lux": (-0.1, 150_001.0),
            "hours": (-0.1, 100_001.0),
            "glass_factor": (-0.1, 1.1),
        },
    ),
    Limited("room_gas.gas_m3", {"gas_kg": 0.45}, {"gas_kg": (-0.1, 1.1e6)}),
    Limited(
        "room_gas.gas_in_room_ppm",
        {"gas_kg": 0.45, "room_m3": 30.0},
        {"gas_kg": (-0.1, 1.1e6), "room_m3": (0.0, 1.1e6)},
    ),
)
