"""Numbers of fermentation, package and storage, worked by hand."""

from tests.evidence.worked import Worked

# Source of the table: worked by hand from the cards in rules/constants/; the sum is above each.
CELLAR = (
    # (48 h x 18 + 24 h x 21) / 72 h
    Worked(
        "early_beer_c",
        19.0,
        """
        brewed: 2026-03-14
        fermentation: {temperature: 18 C, steps: [{since: 2026-03-16, at: 21 C}]}
        """,
    ),
    # 19 C as above, less the 15 C that lager yeast likes at most
    Worked(
        "early_excess_c",
        4.0,
        """
        brewed: 2026-03-14
        pitch: {yeast: {family: lager yeast}}
        fermentation: {temperature: 18 C, steps: [{since: 2026-03-16, at: 21 C}]}
        """,
    ),
    Worked("peak_beer_c", 24.0, "fermentation: {peak: 24 C}"),
    Worked("lag_hours", 18.0, "fermentation: {lag: 18 h}"),
    # 5 days x 24 h / 30 h, the half-life at 20 C
    Worked(
        "diacetyl_half_lives",
        4.0,
        """
        brewed: 2026-03-14
        fermentation: {temperature: 20 C, finished: 2026-03-20, crashed: 2026-03-25}
        """,
    ),
    Worked(
        "days_on_yeast_after_final",
        5.0,
        "fermentation: {finished: 2026-03-20, crashed: 2026-03-25}",
    ),
    # 10 days x 2^((30 - 20) / 10)
    Worked(
        "yeast_contact_days_at_20c",
        20.0,
        """
        brewed: 2026-03-14
        fermentation: {temperature: 30 C}
        packaging: {when: 2026-03-24}
        """,
    ),
    # (50 - 14) / 50 is 72 %, clean ale yeast gives 76 %
    Worked(
        "attenuation_gap",
        -4.0,
        """
        gravity: {original: 1.050, final: 1.014}
        pitch: {yeast: {family: clean ale}}
        """,
    ),
    # at 70 C the mash gives 70 % where 66.5 C gives 78.4 %: 76 x 70 / 78.4 is 67.9 %
    Worked(
        "attenuation_gap",
        4.14,
        """
        mash: {at: 70 C}
        gravity: {original: 1.050, final: 1.014}
        pitch: {yeast: {family: clean ale}}
        """,
    ),
    # 11.91 P to 3.07 P: 0.8192 x 8.84 / (2.0665 - 0.010665 x 11.91) is 3.73 % by weight;
    # x 1.012 / 0.791
    Worked("alcohol_percent", 4.78, "gravity: {original: 1.048, final: 1.012}"),
    Worked("points_left_to_ferment", 4.0, "gravity: {final: 1.014, forced_final: 1.010}"),
    Worked(
        "gravity_drop_after_final",
        6.0,
        """
        gravity: {final: 1.014, readings: [{when: 2026-04-10, gravity: 1.008}]}
        fermentation: {finished: 2026-03-24}
        """,
    ),
    # 4.4 - 4.1; the wort's 5.3 was read before the end
    Worked(
        "ph_drop_after_final",
        0.3,
        """
        gravity:
          readings:
            - {when: 2026-03-14, ph: 5.3}
            - {when: 2026-03-24, ph: 4.4}
            - {when: 2026-04-10, ph: 4.1}
        fermentation: {finished: 2026-03-24}
        """,
    ),
    Worked(
        "dry_hop_days",
        5.0,
        """
        recipe: {hops: [{use: dry hop, added: 2026-03-24}, {use: dry hop, steeped: 3 days}]}
        packaging: {when: 2026-03-29}
        """,
    ),
    # 0.15 picked up, and 50 mL of room to the litre a tenth of which is air: 5 x 1.331 x 0.2095
    Worked(
        "packaged_oxygen_mg_per_l",
        1.544,
        """
        packaging: {package: keg, fill: counter-pressure, purged: "yes", size: 20 L, headspace: 1 L}
        """,
    ),
    # 30 days x 2.5
    Worked("storage_days_at_20c", 75.0, "storage: [{at: 30 C, time: 30 days}]"),
    # 10 days at 20 C and 20 days, up to the tasting, at 30 C: 10 + 20 x 2.5
    Worked(
        "storage_days_at_20c",
        60.0,
        """
        packaging: {when: 2026-04-01}
        storage: [{at: 20 C}, {since: 2026-04-11, at: 30 C}]
        tastings: [{when: 2026-05-01}]
        """,
    ),
    Worked(
        "days_since_packaging",
        30.0,
        "packaging: {when: 2026-04-01}\ntastings: [{when: 2026-04-08}, {when: 2026-05-01}]",
    ),
    # 100 klux x 2 h, a quarter of it through brown glass
    Worked(
        "light_dose_klux_h",
        50.0,
        """
        packaging: {package: bottle, glass: brown}
        storage: [{light: dark}, {light: direct sun, light_time: 2 h}]
        """,
    ),
    Worked(
        "light_dose_klux_h",
        0.0,
        "packaging: {package: can}\nstorage: [{light: direct sun, time: 9 h}]",
    ),
    # 100 g / 20 L / 3.82 is 1.309, and 0.861 left at 20 C
    Worked(
        "priming_volumes",
        2.170,
        """
        fermentation: {temperature: 20 C}
        packaging: {package: bottle, sugar: sucrose, sugar_amount: 100 g, volume: 20 L}
        """,
    ),
    Worked("carbonation_volumes", 2.4, "packaging: {carbonation: 2.4 volumes}"),
    # 2.170 as above, and two points later at half a volume each
    Worked(
        "carbonation_volumes",
        3.170,
        """
        gravity: {final: 1.012, readings: [{when: 2026-05-01, gravity: 1.010}]}
        fermentation: {temperature: 20 C}
        packaging: {package: bottle, sugar: sucrose, sugar_amount: 100 g, volume: 20 L}
        """,
    ),
)
