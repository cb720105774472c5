"""Brew day: mash, sparge, boil, stand, chill and pitch."""

from typing import Annotated

from pydantic import Field as Key

from diagnose.batch.entries import (
    NOT_LOGGED,
    Acidity,
    Cells,
    Concentration,
    Duration,
    Gravity,
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

Lid = Annotated[Word, chosen_from("on", "off", "partly")]
Vigour = Annotated[Word, chosen_from("weak", "rolling")]
SpargeKind = Annotated[Word, chosen_from("none", "fly", "batch")]
_YEAST_FORMS = ("dry", "liquid", "slurry")
YeastForm = Annotated[Word, chosen_from(*_YEAST_FORMS)]
Generation = Annotated[Word, chosen_from("first", "reused")]
_AIR = ("none", "splashed", "shaken", "air stone", "pure oxygen")
Aeration = Annotated[Word, chosen_from(*_AIR)]


class Rest(Section):
    """One step of the mash."""

    at: Temperature = NOT_LOGGED
    time: Duration = NOT_LOGGED


class Mash(Section):
    """The mash; one rest, or several in `rests`."""

    at: Temperature = NOT_LOGGED
    time: Duration = NOT_LOGGED
    rests: tuple[Rest, ...] = ()
    ph: Acidity = NOT_LOGGED
    water: Volume = NOT_LOGGED
    scorching: YesNo = NOT_LOGGED


class Sparge(Section):
    """The sparge."""

    kind: SpargeKind = NOT_LOGGED
    at: Temperature = NOT_LOGGED
    ph: Acidity = NOT_LOGGED
    last_runnings: Gravity = NOT_LOGGED


class Boil(Section):
    """The boil."""

    time: Duration = NOT_LOGGED
    lid: Lid = NOT_LOGGED
    vigour: Vigour = NOT_LOGGED
    volume_before: Volume = NOT_LOGGED
    volume_after: Volume = NOT_LOGGED
    evaporation: Percent = NOT_LOGGED
    ph: Acidity = NOT_LOGGED
    scorching: YesNo = NOT_LOGGED


class HotStand(Section):
    """Time spent hot after the boil and before chilling."""

    time: Duration = NOT_LOGGED
    at: Temperature = NOT_LOGGED
    lid: Lid = NOT_LOGGED


class Chill(Section):
    """From the boil to pitching temperature."""

    time: Duration = NOT_LOGGED
    to: Temperature = NOT_LOGGED
    method: Text = NOT_LOGGED


class Yeast(Section):
    """The yeast that was pitched."""

    name: Text = NOT_LOGGED
    family: Text = NOT_LOGGED
    form: YeastForm = NOT_LOGGED
    amount: Mass = NOT_LOGGED
    volume: Volume = NOT_LOGGED
    cells: Cells = NOT_LOGGED
    packed: When = NOT_LOGGED
    age: Duration = NOT_LOGGED
    stored_at: Temperature = NOT_LOGGED
    generation: Generation = NOT_LOGGED


class Oxygen(Section):
    """How air or oxygen got into the wort at pitching."""

    method: Aeration = NOT_LOGGED
    time: Duration = NOT_LOGGED
    dissolved: Concentration = NOT_LOGGED


class Pitch(Section):
    """Pitching."""

    when: When = NOT_LOGGED
    at: Temperature = NOT_LOGGED
    yeast: Yeast = Key(default_factory=Yeast)
    oxygen: Oxygen = Key(default_factory=Oxygen)
    nutrient: YesNo = NOT_LOGGED
