"""Numbers of ingredients, water and brew day, worked by hand."""

from tests.evidence.worked import Worked

# Source of the table: worked by hand from the cards in rules/constants/; the sum is above each.
BREWDAY = (
    # 77 F less 32, over 1.8
    Worked("pitch_c", 25.0, "pitch: {at: 77 F}"),
    # 1.048 is 11.91 P; 100 / (0.75 x 20 x 11.91)
    Worked(
        "pitch_ratio",
        0.560,
        """
        volume: 20 L
        gravity: {original: 1.048}
        pitch: {yeast: {cells: 100 billion}}
        """,
    ),
    # lager needs 1.5: 10 g x 14 billion, no loss, / (1.5 x 20 x 11.91)
    Worked(
        "pitch_ratio",
        0.392,
        """
        volume: 20 L
        gravity: {original: 1.048}
        pitch: {yeast: {family: lager, form: dry, amount: 10 g, age: 0 days}}
        """,
    ),
    Worked("oxygen_at_pitch_mg_per_l", 8.0, "pitch: {oxygen: {dissolved: 8 ppm}}"),
    # water at 20 C 9.02 mg/L, wort of 11.91 P exp(-0.0203 x 11.91) of it, shaken 0.6 of that
    Worked(
        "oxygen_at_pitch_mg_per_l",
        4.25,
        """
        gravity: {original: 1.048}
        pitch: {at: 20 C, oxygen: {method: shaken}}
        """,
    ),
    # the longest rest counts
    Worked(
        "mash_c",
        64.0,
        """
        mash:
          rests: [{at: 52 C, time: 10 min}, {at: 64 C, time: 40 min}, {at: 72 C, time: 20 min}]
        """,
    ),
    # 10 + 40 + 20 min
    Worked(
        "mash_hours",
        7.0 / 6.0,
        """
        mash:
          rests: [{at: 52 C, time: 10 min}, {at: 64 C, time: 40 min}, {at: 72 C, time: 20 min}]
        """,
    ),
    Worked("mash_ph", 5.4, "mash: {ph: 5.4}"),
    Worked("sparge_ph", 6.1, "sparge: {ph: 6.1}"),
    # 176 F less 32, over 1.8
    Worked("sparge_c", 80.0, "sparge: {at: 176 F}"),
    Worked("last_runnings_sg", 1.006, "sparge: {last_runnings: 1.006}"),
    Worked("boil_minutes", 75.0, "boil: {time: 1 h 15 min}"),
    # 100 x 3 / 28 / 1.25 h
    Worked(
        "evaporation_percent_per_h",
        8.571,
        "boil: {time: 75 min, volume_before: 28 L, volume_after: 25 L}",
    ),
    Worked("hot_stand_minutes", 30.0, "hot_stand: {time: 30 min, at: 90 C}"),
    Worked("hot_stand_minutes", 0.0, "hot_stand: {time: 30 min, at: 70 C}"),
    Worked("chill_minutes", 25.0, "chill: {time: 25 min}"),
    # 4000 g / 20 L x 6 ug/g of precursor; 60 min at a half-life of 38 min leave 33.5 % of 1200,
    # and with 0.0106 x 10 /min driven off 83.1 ug/L of DMS, some 0.3 more in a minute of
    # cooling; fermentation halves it
    Worked(
        "dms_ug_per_l",
        41.67,
        """
        volume: 20 L
        recipe: {fermentables: [{kind: lager malt, amount: 4 kg}]}
        boil: {time: 60 min, evaporation: 10 %, ph: 5.2}
        hot_stand: {time: 0 min}
        chill: {time: 1 min}
        """,
    ),
    # the same under a lid: with 0.0106 x 1.5 /min driven off 472.0 ug/L, and 0.4 in the cooling
    Worked(
        "dms_ug_per_l",
        236.2,
        """
        volume: 20 L
        recipe: {fermentables: [{kind: lager malt, amount: 4 kg}]}
        boil: {time: 60 min, lid: on, vigour: rolling, ph: 5.2}
        hot_stand: {time: 0 min}
        chill: {time: 1 min}
        """,
    ),
    # 12 of 24 months at 20 C
    Worked(
        "extract_age_fraction",
        0.5,
        "recipe: {fermentables: [{kind: liquid extract, age: 12 months, stored_at: 20 C}]}",
    ),
    # the same at 30 C, three times as fast
    Worked(
        "extract_age_fraction",
        1.5,
        "recipe: {fermentables: [{kind: liquid extract, age: 12 months, stored_at: 30 C}]}",
    ),
    Worked(
        "malt_age_months",
        9.0,
        """
        recipe:
          fermentables: [{kind: base malt, age: 9 months}, {kind: crystal malt, age: 4 weeks}]
        """,
    ),
    Worked(
        "crushed_malt_months",
        2.0,
        "recipe: {fermentables: [{kind: base malt, crushed_age: 2 months}]}",
    ),
    # 65 % after 180 days in the open at 20 C: 100 x 0.65^(182.6 / 180)
    Worked(
        "hop_alpha_left_percent",
        64.6,
        "recipe: {hops: [{age: 6 months, stored_at: 20 C, pack: open}]}",
    ),
    # 1500 mg alpha x 1.65 x 0.000125^0.05 x (1 - e^-2.4) / 4.15 / 20 L is 17.3 IBU to 50 points
    Worked(
        "bitterness_ratio",
        0.346,
        """
        volume: 20 L
        recipe: {hops: [{use: boil, amount: 30 g, alpha: 5 %, boiled: 60 min}]}
        gravity: {original: 1.050}
        """,
    ),
    Worked(
        "water_chlorine_mg_per_l",
        0.8,
        "water: [{source: tap, disinfectant: chlorine, chlorine: 0.8 mg/L, treatment: none}]",
    ),
    # what the cards hold of a supply of which nobody read a figure
    Worked("water_chlorine_mg_per_l", 0.4, "water: [{disinfectant: chlorine, treatment: none}]"),
    Worked("water_chlorine_mg_per_l", 1.5, "water: [{disinfectant: chloramine, treatment: none}]"),
    Worked(
        "water_chlorine_mg_per_l",
        0.0,
        """
        water:
          - {source: tap, disinfectant: chlorine, chlorine: 0.8 mg/L, treatment: metabisulfite}
        """,
    ),
    # what the card holds of water bought as pure
    Worked("sulfate_mg_per_l", 2.0, "water: [{source: reverse osmosis}]"),
    # 50 and 5000 mg / 20 L x 96.06 / 172.17
    Worked(
        "sulfate_mg_per_l",
        189.5,
        """
        volume: 20 L
        water: [{source: tap, sulfate: 50 mg/L}]
        salts: [{salt: calcium sulfate dihydrate, amount: 5 g}]
        """,
    ),
    # 30 and 4000 mg / 20 L x 70.9 / 147.01
    Worked(
        "chloride_mg_per_l",
        126.5,
        """
        volume: 20 L
        water: [{source: tap, chloride: 30 mg/L}]
        salts: [{salt: calcium chloride dihydrate, amount: 4 g}]
        """,
    ),
    # 20 and 2000 mg / 20 L x 22.99 / 84.01
    Worked(
        "sodium_mg_per_l",
        47.4,
        """
        volume: 20 L
        water: [{source: tap, sodium: 20 mg/L}]
        salts: [{salt: sodium bicarbonate, amount: 2 g}]
        """,
    ),
    Worked("iron_mg_per_l", 0.3, "water: [{source: well, iron: 0.3 mg/L}, {source: distilled}]"),
)
