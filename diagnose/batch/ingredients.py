"""What went into the batch: grist, hops, other additions, water and salts."""

from typing import Annotated

from diagnose.batch.entries import (
    NOT_LOGGED,
    Acidity,
    Concentration,
    Duration,
    Mass,
    Percent,
    Section,
    Temperature,
    Text,
    Volume,
    Word,
    YesNo,
    chosen_from,
)
from diagnose.batch.moments import When

_GRIST = (
    "base malt",
    "lager malt",
    "wheat malt",
    "munich malt",
    "crystal malt",
    "roasted malt",
    "smoked malt",
    "rye malt",
    "flaked grain",
    "unmalted grain",
    "liquid extract",
    "dry extract",
    "sugar",
    "honey",
    "fruit",
)
_HOP_FORMS = ("pellet", "whole", "extract", "fresh")
_HOP_USES = ("first wort", "boil", "hot stand", "dry hop")
_PACKS = ("vacuum foil", "airtight", "open")
_SOURCES = ("tap", "well", "spring", "distilled", "reverse osmosis", "rain")
_DISINFECTANTS = ("none", "chlorine", "chloramine")
_TREATMENTS = (
    "none",
    "metabisulfite",
    "carbon filter",
    "boiled",
    "stood overnight",
    "ascorbic acid",
)
_WATER_USES = ("mash", "sparge", "top-up", "starter", "rinse", "sanitiser mix", "all")
SALTS = (
    "calcium sulfate dihydrate",
    "calcium sulfate anhydrous",
    "calcium chloride dihydrate",
    "calcium chloride anhydrous",
    "calcium chloride form unknown",
    "magnesium sulfate heptahydrate",
    "sodium chloride",
    "sodium bicarbonate",
    "calcium carbonate",
    "calcium hydroxide",
)

GristKind = Annotated[Word, chosen_from(*_GRIST)]
HopForm = Annotated[Word, chosen_from(*_HOP_FORMS)]
HopUse = Annotated[Word, chosen_from(*_HOP_USES)]
Pack = Annotated[Word, chosen_from(*_PACKS)]
WaterSource = Annotated[Word, chosen_from(*_SOURCES)]
Disinfectant = Annotated[Word, chosen_from(*_DISINFECTANTS)]
Treatment = Annotated[Word, chosen_from(*_TREATMENTS)]
WaterUse = Annotated[Word, chosen_from(*_WATER_USES)]
SaltKind = Annotated[Word, chosen_from(*SALTS)]
MashOrKettle = Annotated[Word, chosen_from("mash", "sparge", "kettle")]


class Kept(Section):
    """How old an ingredient is and how it was kept; shared by all that go stale."""

    lot: Text = NOT_LOGGED
    packed: When = NOT_LOGGED
    best_before: When = NOT_LOGGED
    age: Duration = NOT_LOGGED
    opened: When = NOT_LOGGED
    stored_at: Temperature = NOT_LOGGED


class Fermentable(Kept):
    """One line of the grist."""

    name: Text = NOT_LOGGED
    kind: GristKind = NOT_LOGGED
    amount: Mass = NOT_LOGGED
    crushed: When = NOT_LOGGED
    crushed_age: Duration = NOT_LOGGED
    added: Text = NOT_LOGGED


class Hop(Kept):
    """One hop addition."""

    name: Text = NOT_LOGGED
    form: HopForm = NOT_LOGGED
    amount: Mass = NOT_LOGGED
    alpha: Percent = NOT_LOGGED
    use: HopUse = NOT_LOGGED
    boiled: Duration = NOT_LOGGED
    steeped: Duration = NOT_LOGGED
    pack: Pack = NOT_LOGGED
    added: When = NOT_LOGGED


class Addition(Kept):
    """Anything else that went in: spice, fruit, finings, nutrient."""

    name: Text = NOT_LOGGED
    amount: Mass = NOT_LOGGED
    added: Text = NOT_LOGGED


class Recipe(Section):
    """The ingredient list."""

    fermentables: tuple[Fermentable, ...] = ()
    hops: tuple[Hop, ...] = ()
    other: tuple[Addition, ...] = ()


class Water(Section):
    """One water that touched the wort, the beer or the kit."""

    source: WaterSource = NOT_LOGGED
    volume: Volume = NOT_LOGGED
    used_for: WaterUse = NOT_LOGGED
    disinfectant: Disinfectant = NOT_LOGGED
    chlorine: Concentration = NOT_LOGGED
    treatment: Treatment = NOT_LOGGED
    calcium: Concentration = NOT_LOGGED
    magnesium: Concentration = NOT_LOGGED
    sodium: Concentration = NOT_LOGGED
    sulfate: Concentration = NOT_LOGGED
    chloride: Concentration = NOT_LOGGED
    bicarbonate: Concentration = NOT_LOGGED
    iron: Concentration = NOT_LOGGED
    through_hose: YesNo = NOT_LOGGED


class Salt(Section):
    """One salt addition, with its form: the water of crystallisation changes the dose."""

    salt: SaltKind = NOT_LOGGED
    amount: Mass = NOT_LOGGED
    into: MashOrKettle = NOT_LOGGED
    scale_step: Mass = NOT_LOGGED


class Acid(Section):
    """One acid addition."""

    acid: Text = NOT_LOGGED
    amount: Text = NOT_LOGGED
    into: MashOrKettle = NOT_LOGGED
    resulting_ph: Acidity = NOT_LOGGED
