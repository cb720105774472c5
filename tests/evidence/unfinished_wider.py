"""Records that lack just what a measure of additions, kit, store or tasters needs."""

# Source of the table: first principles; what is not written down is not known.
UNFINISHED_WIDER = (
    (
        "sugar_share_percent",
        "recipe: {fermentables: [{kind: base malt, amount: 4 kg}, {kind: sugar}]}",
    ),
    ("sugar_share_percent", "recipe: {fermentables: [{kind: base malt}, {name: a tin}]}"),
    ("crystal_share_percent", "recipe: {fermentables: [{kind: crystal malt}, {name: the rest}]}"),
    ("crystal_share_percent", "recipe: {fermentables: [{kind: crystal malt}, {kind: base malt}]}"),
    ("roast_share_percent", "recipe: {fermentables: [{kind: base malt}, {name: the rest}]}"),
    (
        "mash_efficiency_percent",
        "volume: 20 L\nrecipe: {fermentables: [{kind: base malt, amount: 4 kg}]}",
    ),
    (
        "mash_efficiency_percent",
        "volume: 20 L\ngravity: {original: 1.045}\n"
        "recipe: {fermentables: [{kind: base malt, amount: 4 kg}, {kind: fruit, amount: 1 kg}]}",
    ),
    (
        "mash_efficiency_percent",
        "volume: 20 L\ngravity: {original: 1.045}\n"
        "recipe:\n  fermentables:\n"
        "    - {kind: base malt, amount: 1 kg}\n    - {kind: dry extract, amount: 3 kg}",
    ),
    ("enzyme_power_lintner", "recipe: {fermentables: [{kind: base malt}]}"),
    ("enzyme_power_lintner", "recipe: {fermentables: [{kind: dry extract, amount: 3 kg}]}"),
    (
        "enzyme_power_lintner",
        "recipe:\n  fermentables:\n"
        "    - {kind: crystal malt, amount: 300 g}\n    - {kind: dry extract, amount: 3 kg}",
    ),
    ("kettle_share", "volume: 20 L\nboil: {volume_before: 22 L}"),
    ("early_cold_c", "brewed: 2026-03-14\nfermentation: {temperature: 12 C}"),
    (
        "fall_before_final_c",
        "brewed: 2026-03-14\nfermentation: {temperature: 20 C, finished: 2026-03-24}",
    ),
    (
        "fall_before_final_c",
        "brewed: 2026-03-14\nfermentation: {temperature: 20 C, finished: 2026-03-24,"
        " crashed: 2026-03-26, crashed_to: 2 C}",
    ),
    ("openings_after_pitch", "packaging: {fill: siphon}"),
    ("days_final_to_package", "packaging: {when: 2026-04-01}"),
    (
        "dry_hop_g_per_l",
        "volume: 20 L\nrecipe: {hops: [{use: dry hop, amount: 60 g}, {use: dry hop}]}",
    ),
    ("dry_hop_g_per_l", "volume: 20 L\nrecipe: {hops: [{use: boil, amount: 60 g}]}"),
    ("mean_store_c", "storage: [{at: 20 C, time: 9 days}, {time: 60 days}]"),
    ("coldest_store_c", "storage: [{time: 9 days}]"),
    ("serving_c", "serving: {line_cleaned: 2 weeks}"),
    ("water_source", "water: [{source: tap}, {used_for: sparge}]"),
    ("water_source", "water: [{source: distilled, used_for: starter}]"),
    ("water_through_hose", "water: [{through_hose: no}, {source: tap}]"),
    ("special_addition", "recipe: {other: []}"),
    ("special_addition", "recipe: {fermentables: [{kind: base malt}], hops: [{use: boil}]}"),
    (
        "special_addition",
        "recipe: {fermentables: [{kind: base malt}], hops: [{form: pellet}],"
        " other: [{name: a spoonful of something}]}",
    ),
    ("special_addition", "recipe: {fermentables: [{kind: roasted malt, name: chocolate malt}]}"),
    ("cold_side_addition", "recipe: {other: [{name: isinglass, added: in the keg}]}"),
    ("cold_side_addition", "recipe: {hops: [{use: boil}], other: [{name: coffee}]}"),
    ("cold_side_addition", "fermentation: {vessel: plastic barrel}"),
    ("late_sugars", "recipe: {other: [{name: raspberries}], fermentables: [{kind: base malt}]}"),
    ("late_sugars", "recipe: {hops: [{use: boil}]}"),
    (
        "late_sugars",
        "recipe: {fermentables: [{kind: base malt}]}\n"
        "events: [{what: other, note: 2 kg of frozen raspberries in}]",
    ),
    ("yeast_form", "pitch: {yeast: {generation: first}}"),
    ("cold_crash", "fermentation: {crashed_to: 2 C}"),
    (
        "cold_crash",
        "brewed: 2026-03-14\npackaging: {when: 2026-04-01}\n"
        "fermentation: {finished: 2026-03-22, temperature: 20 C}",
    ),
    ("vessel_material", "fermentation: {vessel: 23 L carboy}"),
    ("fermenter_light", "fermentation: {vessel: demijohn}"),
    ("fermenter_light", "fermentation: {vessel: white bucket, light: room light}"),
    ("priming_sugar", "packaging: {sugar_amount: 100 g}"),
    ("sanitiser_kind", "cleaning: {cleaner: caustic}"),
    ("cleaner_kind", "cleaning: {sanitiser: iodine}"),
    ("new_part", "equipment: {metal: none}"),
    ("new_part", "equipment: {changes: [{what: new bucket, when: 2025-12-01}]}"),
    ("tasters_agree", "tastings: [{words: butter}]"),
    ("tasters_agree", "tastings: [{who: Wren, words: butter}, {words: vinegar}]"),
    ("tasters_agree", "tastings: [{who: Wren, words: clean}, {who: Pike, words: lovely}]"),
)
