"""Small records that give one class measure each, and the class."""

# Source of the table: first principles; what a reader of the record would say.
CLASSED = (
    ("has_extract", "yes", "method: part extract"),
    ("has_extract", "yes", "recipe: {fermentables: [{kind: base malt}, {kind: dry extract}]}"),
    ("has_extract", "no", "method: all grain"),
    ("has_extract", "no", "recipe: {fermentables: [{kind: base malt}]}"),
    (
        "extract_form",
        "liquid",
        "recipe: {fermentables: [{kind: dry extract}, {kind: liquid extract}]}",
    ),
    ("extract_form", "dry", "recipe: {fermentables: [{kind: dry extract}]}"),
    ("extract_form", "none", "recipe: {fermentables: [{kind: base malt}]}"),
    ("pale_lager_malt_share", "high", "recipe: {fermentables: [{kind: lager malt}]}"),
    (
        "pale_lager_malt_share",
        "some",
        """
        recipe:
          fermentables: [{kind: lager malt, amount: 1 kg}, {kind: base malt, amount: 3 kg}]
        """,
    ),
    ("pale_lager_malt_share", "none", "recipe: {fermentables: [{kind: base malt}]}"),
    ("smoked_malt", "yes", "recipe: {fermentables: [{kind: smoked malt}, {name: the rest}]}"),
    ("smoked_malt", "no", "recipe: {fermentables: [{kind: base malt}]}"),
    (
        "smoked_malt",
        "by_design",
        "style: smoked beer\nrecipe: {fermentables: [{kind: smoked malt}]}",
    ),
    ("lid_on_boil", "yes", "boil: {lid: on}"),
    ("lid_on_boil", "partly", "boil: {lid: partly}"),
    ("lid_on_boil", "no", "boil: {lid: off}"),
    (
        "water_disinfectant",
        "chloramine",
        "water: [{disinfectant: chlorine}, {disinfectant: chloramine}]",
    ),
    ("water_disinfectant", "none", "water: [{source: rain}]"),
    (
        "disinfectant_treated",
        "yes",
        "water: [{disinfectant: chloramine, treatment: metabisulfite}]",
    ),
    ("disinfectant_treated", "no", "water: [{disinfectant: chloramine, treatment: boiled}]"),
    ("disinfectant_treated", "yes", "water: [{disinfectant: chlorine, treatment: boiled}]"),
    (
        "disinfectant_treated",
        "part",
        """
        water:
          - {used_for: mash, disinfectant: chlorine, treatment: metabisulfite}
          - {used_for: top-up, disinfectant: chlorine, treatment: none}
        """,
    ),
    ("bleach_used", "yes", "cleaning: {sanitiser: bleach}"),
    ("bleach_used", "no", "cleaning: {sanitiser: iodine}"),
    ("package", "cask", "packaging: {package: cask}"),
    ("purged", "no", "packaging: {purged: no}"),
    ("open_transfer", "yes", "packaging: {fill: siphon}"),
    ("open_transfer", "no", "packaging: {fill: closed transfer}"),
    (
        "open_transfer",
        "yes",
        "events: [{what: racked, purged: no}]\npackaging: {fill: closed transfer}",
    ),
    ("dry_hopped", "yes", "recipe: {hops: [{use: boil}, {use: dry hop}]}"),
    ("dry_hopped", "yes", "events: [{what: dry hopped}]"),
    ("dry_hopped", "no", "recipe: {hops: [{use: boil}]}"),
    ("mash_scorch_signs", "yes", "mash: {scorching: no}\nboil: {scorching: yes}"),
    ("mash_scorch_signs", "no", "mash: {scorching: no}"),
    ("metal_contact", "suspect", "equipment: {metal: suspect}"),
    ("glass_colour", "green", "packaging: {glass: green}"),
    ("glass_colour", "none", "packaging: {package: keg}"),
    ("yeast_family", "farmhouse_hot", "pitch: {yeast: {family: kveik}}"),
    ("souring_on_purpose", "no", "style: bitter"),
    ("souring_on_purpose", "yes", "style: mixed culture ale"),
    ("bacteria_or_wild_kit", "yes", "equipment: {shared_with_sour_or_wild: yes}"),
    ("yeast_generation", "reused", "pitch: {yeast: {generation: reused}}"),
    ("cleaner_rinsed", "no-rinse", "cleaning: {rinsed: no rinse}"),
    ("nutrient", "no", "pitch: {nutrient: no}"),
    ("line_cleaned", "overdue", "serving: {line_cleaned: 5 weeks}"),
    ("line_cleaned", "recent", "serving: {line_cleaned: 27 days}"),
    ("gushing", "no", "packaging: {gushing: no}"),
)
