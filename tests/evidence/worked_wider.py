"""Numbers of grist, cooling, additions and store, worked by hand."""

from tests.evidence.worked import Worked

# Source of the table: worked by hand from the numbers at the top of each measure's module.
WIDER = (
    # 4 kg x 0.78 x 0.75 = 2.34 kg of extract from malt, 0.5 kg from sugar: 0.5 / 2.84
    Worked(
        "sugar_share_percent",
        17.6,
        """
        recipe:
          fermentables: [{kind: base malt, amount: 4 kg}, {kind: sugar, amount: 500 g}]
        """,
    ),
    Worked("sugar_share_percent", 0.0, "recipe: {fermentables: [{kind: base malt}]}"),
    Worked(
        "crystal_share_percent",
        10.0,
        """
        recipe:
          fermentables: [{kind: base malt, amount: 4500 g}, {kind: crystal malt, amount: 500 g}]
        """,
    ),
    Worked(
        "roast_share_percent",
        20.0,
        """
        recipe:
          fermentables: [{kind: base malt, amount: 4 kg}, {kind: roasted malt, amount: 1 kg}]
        """,
    ),
    # 45 points x 20 L = 900 of 4 kg x 300
    Worked(
        "mash_efficiency_percent",
        75.0,
        """
        volume: 20 L
        gravity: {original: 1.045}
        recipe: {fermentables: [{kind: base malt, amount: 4 kg}]}
        """,
    ),
    # 900 less 0.5 kg x 384 = 708 of 1200
    Worked(
        "mash_efficiency_percent",
        59.0,
        """
        volume: 20 L
        gravity: {original: 1.045}
        recipe: {fermentables: [{kind: base malt, amount: 4 kg}, {kind: sugar, amount: 500 g}]}
        """,
    ),
    # (2 kg x 120 + 2 kg x 0) / 4 kg
    Worked(
        "enzyme_power_lintner",
        60.0,
        """
        recipe:
          fermentables: [{kind: lager malt, amount: 2 kg}, {kind: flaked grain, amount: 2 kg}]
        """,
    ),
    Worked("kettle_share", 0.75, "volume: 20 L\nboil: {volume_after: 15 L}"),
    # 20 L less 8 % in the hour, over 20 L; a rolling boil takes 10 %, one under a lid 1.5 %
    Worked("kettle_share", 0.92, "volume: 20 L\nboil: {volume_before: 20 L, time: 60 min}"),
    Worked(
        "kettle_share",
        0.9,
        "volume: 20 L\nboil: {volume_before: 20 L, time: 60 min, vigour: rolling}",
    ),
    Worked(
        "kettle_share",
        0.985,
        "volume: 20 L\nboil: {volume_before: 20 L, time: 60 min, vigour: rolling, lid: on}",
    ),
    # 12 C less the 7 C that lager yeast likes at least
    Worked(
        "early_cold_c",
        5.0,
        """
        brewed: 2026-03-14
        pitch: {yeast: {family: lager yeast}}
        fermentation: {temperature: 12 C}
        """,
    ),
    Worked(
        "fall_before_final_c",
        2.5,
        """
        brewed: 2026-03-14
        fermentation:
          temperature: 20 C
          steps: [{since: 2026-03-18, at: 17.5 C}, {since: 2026-03-20, at: 16 C}]
          finished: 2026-03-24
        """,
    ),
    Worked(
        "openings_after_pitch",
        2.0,
        """
        events: [{what: opened}, {what: dry hopped, purged: no}, {what: racked, purged: yes}]
        """,
    ),
    Worked(
        "days_final_to_package",
        12.0,
        """
        fermentation: {finished: 2026-03-20, off_yeast: 2026-03-22}
        packaging: {when: 2026-04-01}
        """,
    ),
    # (60 + 40) g / 20 L
    Worked(
        "dry_hop_g_per_l",
        5.0,
        """
        volume: 20 L
        recipe: {hops: [{use: dry hop, amount: 60 g}, {use: dry hop, amount: 40 g}, {use: boil}]}
        """,
    ),
    # (10 d x 20 + 20 d x 5) / 30 d
    Worked(
        "mean_store_c",
        10.0,
        "storage: [{at: 20 C, time: 10 days}, {at: 5 C, time: 20 days}]",
    ),
    Worked(
        "coldest_store_c",
        -1.0,
        "storage: [{at: -1-3 C}, {at: 12 C}]\nfermentation: {crashed_to: 2 C}",
    ),
    Worked("serving_c", 8.0, "tastings: [{at: 5 C}, {at: 8 C}]\nserving: {at: 3 C}"),
    Worked("serving_c", 3.0, "serving: {at: 3 C}"),
)
