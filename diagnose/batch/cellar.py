"""After pitching: fermentation, what happened to it, packaging, storage, serving, cleaning, kit."""

from typing import Annotated

from pydantic import Field as Key

from diagnose.batch.entries import (
    NOT_LOGGED,
    Acidity,
    Carbonation,
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

_PROBE_PLACES = ("in the beer", "on the wall", "in the room")
ProbePlace = Annotated[Word, chosen_from(*_PROBE_PLACES)]
_EVENTS = (
    "opened",
    "racked",
    "topped up",
    "sucked back",
    "purged",
    "dry hopped",
    "roused",
    "other",
)
EventKind = Annotated[Word, chosen_from(*_EVENTS)]
_PACKAGES = ("keg", "bottle", "can", "cask")
Package = Annotated[Word, chosen_from(*_PACKAGES)]
_FILLS = ("open pour", "siphon", "filler tube", "counter-pressure", "closed transfer")
Fill = Annotated[Word, chosen_from(*_FILLS)]
_GLASS = ("clear", "green", "brown", "none")
Glass = Annotated[Word, chosen_from(*_GLASS)]
_LIGHT = ("dark", "room light", "shop light", "daylight shade", "direct sun")
Light = Annotated[Word, chosen_from(*_LIGHT)]
_SUGARS = ("glucose", "glucose monohydrate", "sucrose", "extract", "none")
Sugar = Annotated[Word, chosen_from(*_SUGARS)]
_CLEANERS = ("none", "percarbonate", "caustic", "detergent", "other")
Cleaner = Annotated[Word, chosen_from(*_CLEANERS)]
_SANITISERS = ("none", "acid no-rinse", "iodine", "bleach", "peracetic", "heat", "other")
Sanitiser = Annotated[Word, chosen_from(*_SANITISERS)]
_RINSES = ("yes", "no", "no-rinse")
Rinsed = Annotated[Word, chosen_from(*_RINSES)]
_METALS = ("none", "suspect")
MetalContact = Annotated[Word, chosen_from(*_METALS)]


class GravityReading(Section):
    """One sample: gravity, and pH where it was measured."""

    when: When = NOT_LOGGED
    gravity: Gravity = NOT_LOGGED
    ph: Acidity = NOT_LOGGED


class GravityLog(Section):
    """Original, final and what was read in between and after."""

    original: Gravity = NOT_LOGGED
    final: Gravity = NOT_LOGGED
    forced_final: Gravity = NOT_LOGGED
    attenuation: Percent = NOT_LOGGED
    readings: tuple[GravityReading, ...] = ()


class TemperatureStep(Section):
    """From a moment on, the temperature the beer was held at."""

    since: When = NOT_LOGGED
    at: Temperature = NOT_LOGGED


class Fermentation(Section):
    """Fermentation, up to the crash or the packaging."""

    vessel: Text = NOT_LOGGED
    temperature: Temperature = NOT_LOGGED
    peak: Temperature = NOT_LOGGED
    steps: tuple[TemperatureStep, ...] = ()
    probe_log: Text = NOT_LOGGED
    probe_profile: Text = NOT_LOGGED
    probe_place: ProbePlace = NOT_LOGGED
    lag: Duration = NOT_LOGGED
    finished: When = NOT_LOGGED
    crashed: When = NOT_LOGGED
    crashed_to: Temperature = NOT_LOGGED
    off_yeast: When = NOT_LOGGED
    light: Light = NOT_LOGGED
    vessel_glass: Glass = NOT_LOGGED


class Event(Section):
    """Something done to the beer between pitching and packaging."""

    when: When = NOT_LOGGED
    what: EventKind = NOT_LOGGED
    purged: YesNo = NOT_LOGGED
    note: Text = NOT_LOGGED


class Packaging(Section):
    """Bottling, kegging or canning."""

    when: When = NOT_LOGGED
    package: Package = NOT_LOGGED
    size: Volume = NOT_LOGGED
    fill: Fill = NOT_LOGGED
    purged: YesNo = NOT_LOGGED
    headspace: Volume = NOT_LOGGED
    dissolved_oxygen: Concentration = NOT_LOGGED
    sugar: Sugar = NOT_LOGGED
    sugar_amount: Mass = NOT_LOGGED
    volume: Volume = NOT_LOGGED
    carbonation: Carbonation = NOT_LOGGED
    glass: Glass = NOT_LOGGED
    gushing: YesNo = NOT_LOGGED


class Storage(Section):
    """One stretch of storage after packaging."""

    since: When = NOT_LOGGED
    time: Duration = NOT_LOGGED
    at: Temperature = NOT_LOGGED
    light: Light = NOT_LOGGED
    light_time: Duration = NOT_LOGGED


class Serving(Section):
    """How it is poured."""

    at: Temperature = NOT_LOGGED
    line_cleaned: Duration = NOT_LOGGED


class Cleaning(Section):
    """What the kit was cleaned and sanitised with."""

    cleaner: Cleaner = NOT_LOGGED
    rinsed: Rinsed = NOT_LOGGED
    sanitiser: Sanitiser = NOT_LOGGED
    note: Text = NOT_LOGGED


class Change(Section):
    """Something that was changed, bought or taken apart."""

    when: When = NOT_LOGGED
    what: Text = NOT_LOGGED


class Equipment(Section):
    """The kit, as far as it can spoil beer."""

    shared_with_sour_or_wild: YesNo = NOT_LOGGED
    metal: MetalContact = NOT_LOGGED
    changes: tuple[Change, ...] = ()
    note: Text = NOT_LOGGED


class Tasting(Section):
    """One tasting in the taster's own words; pseudonyms only."""

    when: When = NOT_LOGGED
    who: Text = NOT_LOGGED
    words: Text = NOT_LOGGED
    at: Temperature = NOT_LOGGED
    poured_from: Text = NOT_LOGGED


class Cellar(Section):
    """Sections that come after pitching; inherited by the record."""

    gravity: GravityLog = Key(default_factory=GravityLog)
    fermentation: Fermentation = Key(default_factory=Fermentation)
    events: tuple[Event, ...] = ()
    packaging: Packaging = Key(default_factory=Packaging)
    storage: tuple[Storage, ...] = ()
    serving: Serving = Key(default_factory=Serving)
    cleaning: Cleaning = Key(default_factory=Cleaning)
    equipment: Equipment = Key(default_factory=Equipment)
    tastings: tuple[Tasting, ...] = ()
