"""The entries a guided record asks for on brew day, in words for the kettle.

What a choice writes is what a record may hold; a test holds each against the record.
"""

from typing import Final

from diagnose.consult.guided_slots import YES_NO, Item, Slot, at, same
from diagnose.units import Field

_GRAIN = ("method", ("all grain", "part extract"))
_EXTRACT = Item("extract", "kind", ("liquid extract", "dry extract"))
_MALT = Item("malt", "kind", ("base malt", "lager malt", "wheat malt"))
_DRY_HOP = Item("dry_hop", "use", ("dry hop",))
_HOP = Item("any", "use", ("dry hop", "boil", "hot stand"))
_GRIST, _HOPS = ("recipe", "fermentables"), ("recipe", "hops")

INGREDIENTS: Final = (
    Slot(
        at("volume"),
        "How much beer did the batch come to?",
        "quantity",
        Field.VOLUME,
        hint="19 L or 5 US gal",
    ),
    Slot(
        _GRIST,
        "What malts, extracts and sugars went in, and how much of each?",
        "grist",
        hint="4.5 kg pale malt, 300 g crystal malt, 200 g sugar",
    ),
    Slot(
        (*_GRIST, _EXTRACT, "age"),
        "How old was the extract on brew day, by the date on it?",
        "quantity",
        Field.DURATION,
        hint="5 months",
    ),
    Slot(
        (*_GRIST, _MALT, "age"),
        "How old was the base malt on brew day, by the bag or the receipt?",
        "quantity",
        Field.DURATION,
        hint="8 months",
    ),
    Slot(
        (*_GRIST, _MALT, "crushed_age"),
        "How long before brew day was the malt crushed?",
        "quantity",
        Field.DURATION,
        hint="2 weeks; 0 h if that day",
    ),
    Slot(
        _HOPS,
        "Did any hops go in after the boil had cooled?",
        "hops",
        choices=(("dry hop", "yes, dry hops"), ("boil", "no, only hot")),
    ),
    Slot(
        (*_HOPS, _DRY_HOP, "steeped"),
        "How many days did the dry hops stay in the beer?",
        "quantity",
        Field.DURATION,
        bare="days",
    ),
    Slot(
        (*_HOPS, _DRY_HOP, "amount"),
        "How much dry hops went in?",
        "quantity",
        Field.MASS,
        hint="60 g",
    ),
    Slot(
        (*_HOPS, _HOP, "age"),
        "How old were the oldest hops when they were used?",
        "quantity",
        Field.DURATION,
        hint="14 months",
    ),
)

WATER: Final = (
    Slot(
        at("water.0.source"),
        "Where did the brewing water come from?",
        "word",
        choices=same("tap", "well", "spring", "distilled", "reverse osmosis", "rain"),
    ),
    Slot(
        at("water.0.disinfectant"),
        "Does your water supplier dose chlorine, chloramine, or nothing?",
        "word",
        choices=(("none", "nothing"), *same("chlorine", "chloramine")),
    ),
    Slot(
        at("water.0.treatment"),
        "What was done to get the chlorine out of the water?",
        "word",
        choices=(
            ("none", "nothing"),
            *same("metabisulfite", "carbon filter", "boiled", "stood overnight", "ascorbic acid"),
        ),
        only_if=("water.0.disinfectant", ("chlorine", "chloramine")),
    ),
    Slot(
        at("water.0.through_hose"),
        "Did any brewing, top-up or rinse water come through a garden hose?",
        "word",
        choices=YES_NO,
    ),
    *(
        Slot(
            at(f"water.0.{ion}"),
            f"How much {ion} was in the brewing water, salts counted in?",
            "quantity",
            Field.CONCENTRATION,
            bare="mg/L",
            hint="mg/L, from the water report and what you added",
        )
        for ion in ("sulfate", "chloride", "sodium", "iron")
    ),
)

HOT_SIDE: Final = (
    Slot(
        at("mash.at"),
        "How hot was the main mash rest?",
        "quantity",
        Field.TEMPERATURE,
        only_if=_GRAIN,
        hint="67 C or 152 F",
    ),
    Slot(
        at("mash.time"),
        "How long did the mash stand in all?",
        "quantity",
        Field.DURATION,
        only_if=_GRAIN,
        hint="60 min",
    ),
    Slot(
        at("mash.ph"),
        "What was the mash pH, read on a cooled sample?",
        "quantity",
        Field.PH,
        only_if=_GRAIN,
    ),
    Slot(
        at("sparge.at"),
        "How hot was the sparge water?",
        "quantity",
        Field.TEMPERATURE,
        only_if=_GRAIN,
    ),
    Slot(
        at("sparge.ph"),
        "What was the pH of the last run-off?",
        "quantity",
        Field.PH,
        only_if=_GRAIN,
    ),
    Slot(
        at("sparge.last_runnings"),
        "What did the last runnings read when you stopped collecting?",
        "quantity",
        Field.GRAVITY,
        only_if=_GRAIN,
        hint="1.010",
    ),
    Slot(
        at("boil.time"),
        "How long did the wort boil?",
        "quantity",
        Field.DURATION,
        bare="min",
        hint="60 min",
    ),
    Slot(
        at("boil.lid"),
        "Was the lid on while the wort boiled?",
        "word",
        choices=(("on", "on"), ("partly", "partly on"), ("off", "off")),
    ),
    Slot(
        at("boil.scorching"),
        "Was there brown or black crust on the element or kettle bottom?",
        "word",
        choices=YES_NO,
    ),
    Slot(
        at("boil.volume_before"),
        "How much wort was in the kettle before the boil?",
        "quantity",
        Field.VOLUME,
    ),
    Slot(
        at("boil.volume_after"),
        "How much wort was in the kettle at the end of the boil?",
        "quantity",
        Field.VOLUME,
    ),
    Slot(
        at("hot_stand.time"),
        "After flame-out, how long did the wort stand hot before it was chilled?",
        "quantity",
        Field.DURATION,
        bare="min",
        hint="0 min if the chiller ran at once",
    ),
    Slot(
        at("chill.time"),
        "How long did the chiller take to pitching temperature?",
        "quantity",
        Field.DURATION,
        hint="25 min; 10 h if it cooled overnight",
    ),
)
