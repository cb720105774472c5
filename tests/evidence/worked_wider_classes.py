"""Small records that give one class of water, additions, kit or tasters each."""

_GRIST = "fermentables: [{kind: base malt}]"
_MALT_AND_HOPS = f"{_GRIST}, hops: [{{form: pellet, use: boil}}]"

# Source of the table: first principles; what a reader of the record would say.
WIDER_CLASSED = (
    ("water_source", "tap", "water: [{source: tap}]"),
    (
        "water_source",
        "pure",
        "water: [{source: tap, volume: 5 L}, {source: rain, used_for: rinse},"
        " {source: reverse osmosis, volume: 20 L}]",
    ),
    ("water_source", "well", "water: [{source: tap, volume: 20 L}, {source: well, volume: 2 L}]"),
    ("water_source", "spring", "water: [{source: tap}, {source: spring}]"),
    ("water_through_hose", "yes", "water: [{source: tap}, {through_hose: yes}]"),
    ("water_through_hose", "no", "water: [{through_hose: no}]"),
    ("special_addition", "none", f"recipe: {{{_MALT_AND_HOPS}}}"),
    ("special_addition", "none", f"recipe: {{{_MALT_AND_HOPS}, other: [{{name: Irish moss}}]}}"),
    ("special_addition", "spice", "recipe: {other: [{name: Orange peel}, {name: coriander seed}]}"),
    ("special_addition", "wood", "recipe: {other: [{name: oak cubes}]}"),
    ("special_addition", "wood", "recipe: {other: [{name: medium toast chips}]}"),
    ("special_addition", "fatty", "recipe: {other: [{name: cocoa nibs}]}"),
    ("special_addition", "sweetener", "recipe: {fermentables: [{kind: sugar, name: lactose}]}"),
    ("special_addition", "limed_corn", "recipe: {other: [{name: tortilla chips}]}"),
    ("special_addition", "iron_rich", "recipe: {other: [{name: iron-fortified bran cereal}]}"),
    ("special_addition", "fresh_hops", "recipe: {hops: [{form: fresh}]}"),
    ("special_addition", "several", "recipe: {other: [{name: vanilla pods}, {name: cacao}]}"),
    ("cold_side_addition", "none", f"recipe: {{{_MALT_AND_HOPS}}}"),
    ("cold_side_addition", "hops", "events: [{what: dry hopped}]"),
    ("cold_side_addition", "wood", "fermentation: {vessel: old wine barrel}"),
    ("cold_side_addition", "wood", "recipe: {other: [{name: oak chips}, {name: moss}]}"),
    (
        "cold_side_addition",
        "other",
        "recipe: {hops: [{use: dry hop}], other: [{name: coffee, added: in the keg}]}",
    ),
    ("cold_side_addition", "other", "recipe: {fermentables: [{kind: fruit, added: day 6}]}"),
    ("late_sugars", "none", f"recipe: {{{_GRIST}}}"),
    ("late_sugars", "fruit", "recipe: {other: [{name: cherry puree, added: secondary}]}"),
    (
        "late_sugars",
        "fruit",
        "recipe: {fermentables: [{kind: fruit, added: fermenter}, {kind: honey, added: day 3}]}",
    ),
    (
        "late_sugars",
        "sugar",
        "brewed: 2026-03-14\nrecipe: {fermentables: [{kind: honey, added: 2026-03-18}]}",
    ),
    (
        "late_sugars",
        "enzyme",
        "recipe: {fermentables: [{kind: fruit, added: day 3}],"
        " other: [{name: glucoamylase, added: in the fermenter}]}",
    ),
    ("late_sugars", "none", "recipe: {fermentables: [{kind: sugar, added: last 10 min of boil}]}"),
    ("yeast_form", "dry", "pitch: {yeast: {form: dry}}"),
    ("yeast_form", "slurry", "pitch: {yeast: {generation: reused}}"),
    ("cold_crash", "sucked_back", "events: [{what: sucked back}]"),
    ("cold_crash", "unguarded", "fermentation: {crashed: 2026-03-25}"),
    (
        "cold_crash",
        "guarded",
        "fermentation: {crashed: 2026-03-25}\nevents: [{what: purged, when: 2026-03-26}]",
    ),
    (
        "cold_crash",
        "unguarded",
        "fermentation: {crashed: 2026-03-25}\nevents: [{what: purged, when: 2026-03-28}]",
    ),
    (
        "cold_crash",
        "unguarded",
        "brewed: 2026-03-14\npackaging: {when: 2026-04-01}\nfermentation: {finished: 2026-03-22,"
        " temperature: 20 C, steps: [{since: 2026-03-26, at: 3 C}]}",
    ),
    (
        "cold_crash",
        "none",
        "brewed: 2026-03-14\npackaging: {when: 2026-04-01}\nfermentation: {finished: 2026-03-22,"
        " temperature: 20 C, steps: [{since: 2026-03-26, at: 15 C}]}",
    ),
    ("vessel_material", "plastic", "fermentation: {vessel: bucket with a steel tap}"),
    ("vessel_material", "plastic", "fermentation: {vessel: PET conical}"),
    ("vessel_material", "plastic", "fermentation: {vessel: pressure barrel}"),
    ("vessel_material", "steel", "fermentation: {vessel: conical in the shed}"),
    ("vessel_material", "glass", "fermentation: {vessel: 5 L demijohns}"),
    ("vessel_material", "other", "fermentation: {vessel: oak cask}"),
    ("fermenter_light", "sheltered", "fermentation: {light: dark}"),
    ("fermenter_light", "sheltered", "fermentation: {vessel: stainless, light: direct sun}"),
    ("fermenter_light", "sheltered", "fermentation: {vessel_glass: brown, light: room light}"),
    ("fermenter_light", "room_light", "fermentation: {vessel_glass: brown, light: direct sun}"),
    ("fermenter_light", "room_light", "fermentation: {vessel: demijohn, light: shop light}"),
    ("fermenter_light", "room_light", "fermentation: {vessel: white bucket, light: direct sun}"),
    ("fermenter_light", "daylight", "fermentation: {vessel_glass: green, light: daylight shade}"),
    ("priming_sugar", "sugar", "packaging: {sugar: glucose monohydrate}"),
    ("priming_sugar", "extract", "packaging: {sugar: extract}"),
    ("priming_sugar", "none", "packaging: {sugar: none}"),
    ("sanitiser_kind", "acid", "cleaning: {sanitiser: acid no-rinse}"),
    ("sanitiser_kind", "bleach", "cleaning: {sanitiser: bleach}"),
    ("cleaner_kind", "caustic", "cleaning: {cleaner: caustic}"),
    ("new_part", "rubber", "equipment: {changes: [{what: new hose}, {what: lid seals}]}"),
    ("new_part", "hose", "equipment: {changes: [{what: silicon-free tubing}]}"),
    (
        "new_part",
        "other",
        "brewed: 2026-03-14\n"
        "equipment: {changes: [{what: bucket, when: 2025-12-01}, {what: mill, when: 2026-01-02}]}",
    ),
    (
        "new_part",
        "none",
        "brewed: 2026-03-14\nequipment: {changes: [{what: new bucket, when: 2025-12-01}]}",
    ),
    (
        "new_part",
        "none",
        "brewed: 2026-03-14\ntastings: [{when: 2026-04-20}]\n"
        "equipment: {changes: [{what: new bucket, when: 2026-04-21}]}",
    ),
    (
        "new_part",
        "plastic",
        "brewed: 2026-03-14\ntastings: [{when: 2026-04-20}]\n"
        "equipment: {changes: [{what: new bucket, when: 2026-04-20}]}",
    ),
    ("tasters_agree", "one_only", "tastings: [{who: Wren, words: butter}, {who: wren, words: ok}]"),
    (
        "tasters_agree",
        "several_agree",
        "tastings: [{who: Wren, words: butter}, {who: Pike, words: butterscotch}]",
    ),
    (
        "tasters_agree",
        "several_disagree",
        "tastings: [{who: Wren, words: butter}, {who: Pike, words: vinegar}]",
    ),
    (
        "tasters_agree",
        "several_disagree",
        "tastings: [{who: Wren, words: butter}, {who: Pike, words: clean}]",
    ),
)
