"""Classes and numbers that stand in the record as they are."""

from collections.abc import Callable
from dataclasses import dataclass

from diagnose.batch import NotLogged
from diagnose.documents import Path
from diagnose.evidence.facts import HYDROMETER, PH, THERMOMETER, Facts
from diagnose.evidence.finding import Finding
from diagnose.units import MINUTES_PER_HOUR, Field, Reading, show

Measuring = Callable[[Facts], Finding | None]


@dataclass(frozen=True)
class WordEntry:
    """A class measure that is one entry of the record; `values` maps its words to classes."""

    measure: str
    path: Path
    says: dict[str, str]
    values: dict[str, str] | None = None

    def __call__(self, facts: Facts) -> Finding | None:
        """The finding, or None where the entry is not logged."""
        word = _at(facts, self.path)
        if not isinstance(word, str):
            return None
        value = (self.values or {}).get(word, word)
        return facts.word(self.measure, value, self.says.get(word, word), self.path)


@dataclass(frozen=True)
class NumberEntry:
    """A number measure that is one entry of the record.

    `scale` brings the entry's base unit to the measure's; `error` is the constant of the entry's
    usual error, in the measure's unit.
    """

    measure: str
    path: Path
    field: Field
    phrase: str
    error: str
    scale: float = 1.0

    def __call__(self, facts: Facts) -> Finding | None:
        """The finding, or None where the entry is not logged."""
        reading = _at(facts, self.path)
        if not isinstance(reading, Reading):
            return None
        scaled = Reading(
            reading.typed,
            reading.value * self.scale,
            reading.low * self.scale,
            reading.high * self.scale,
            reading.unit,
        )
        says = self.phrase.format(show(reading, self.field))
        return facts.number(self.measure, facts.read(scaled, self.error), says, self.path)


def _at(facts: Facts, path: Path) -> object:
    value: object = facts.record
    for step in path:
        value = getattr(value, str(step))
    return value


_CLEANED_WITH = {"none": "kit not cleaned", "other": "another kind of cleaner"}
_SANITISED_WITH = {"none": "kit not sanitised", "heat": "kit sanitised by heat"}
_PRIMED_WITH = {"none": "not primed", "extract": "primed with extract or saved wort"}
_SUGAR_OR_EXTRACT = dict.fromkeys(("glucose", "glucose monohydrate", "sucrose"), "sugar")

ENTRIES: tuple[WordEntry | NumberEntry, ...] = (
    WordEntry(
        "lid_on_boil",
        ("boil", "lid"),
        {"on": "boiled with the lid on", "off": "boiled without a lid", "partly": "lid partly on"},
        {"on": "yes", "off": "no"},
    ),
    WordEntry("package", ("packaging", "package"), {}),
    WordEntry(
        "purged",
        ("packaging", "purged"),
        {"yes": "package purged", "no": "package not purged"},
    ),
    WordEntry(
        "metal_contact",
        ("equipment", "metal"),
        {"none": "no suspect metal", "suspect": "suspect metal touches wort or beer"},
    ),
    WordEntry(
        "bacteria_or_wild_kit",
        ("equipment", "shared_with_sour_or_wild"),
        {"yes": "kit shared with sour or wild beer", "no": "kit not shared with sour beer"},
    ),
    WordEntry(
        "yeast_generation",
        ("pitch", "yeast", "generation"),
        {"first": "fresh yeast", "reused": "harvested yeast"},
    ),
    WordEntry(
        "cleaner_rinsed",
        ("cleaning", "rinsed"),
        {"yes": "cleaner rinsed off", "no": "cleaner not rinsed off", "no-rinse": "no-rinse kind"},
    ),
    WordEntry(
        "nutrient",
        ("pitch", "nutrient"),
        {"yes": "yeast nutrient added", "no": "no yeast nutrient"},
    ),
    WordEntry(
        "gushing",
        ("packaging", "gushing"),
        {"yes": "it gushes when opened", "no": "it does not gush"},
    ),
    WordEntry("cleaner_kind", ("cleaning", "cleaner"), _CLEANED_WITH),
    WordEntry(
        "sanitiser_kind", ("cleaning", "sanitiser"), _SANITISED_WITH, {"acid no-rinse": "acid"}
    ),
    WordEntry("priming_sugar", ("packaging", "sugar"), _PRIMED_WITH, _SUGAR_OR_EXTRACT),
    NumberEntry("pitch_c", ("pitch", "at"), Field.TEMPERATURE, "pitched at {}", THERMOMETER),
    NumberEntry(
        "lag_hours",
        ("fermentation", "lag"),
        Field.DURATION,
        "first activity after {}",
        "lag_error",
    ),
    NumberEntry("mash_ph", ("mash", "ph"), Field.PH, "mash {}", PH),
    NumberEntry("sparge_ph", ("sparge", "ph"), Field.PH, "sparge {}", PH),
    NumberEntry("sparge_c", ("sparge", "at"), Field.TEMPERATURE, "sparged at {}", THERMOMETER),
    NumberEntry(
        "last_runnings_sg",
        ("sparge", "last_runnings"),
        Field.GRAVITY,
        "last runnings at {}",
        HYDROMETER,
    ),
    NumberEntry(
        "boil_minutes",
        ("boil", "time"),
        Field.DURATION,
        "boiled for {}",
        "boil_time_error",
        MINUTES_PER_HOUR,
    ),
    NumberEntry(
        "chill_minutes",
        ("chill", "time"),
        Field.DURATION,
        "chilled in {}",
        "chill_time_error",
        MINUTES_PER_HOUR,
    ),
)


def souring_on_purpose(facts: Facts) -> Finding | None:
    """Whether the style is soured on purpose."""
    style = facts.beer.style
    if style is None:
        return None
    if style.id in ("sour_wheat", "mixed_culture_ale"):
        return facts.word(
            "souring_on_purpose", "yes", f"{style.name}: soured on purpose", ("style",)
        )
    return facts.word("souring_on_purpose", "no", "not soured on purpose", ("style",))


def yeast_family(facts: Facts) -> Finding | None:
    """The yeast family, where the record names it."""
    yeast = facts.beer.yeast
    if yeast is None or facts.beer.yeast_assumed:
        return None
    return facts.word("yeast_family", yeast.id, yeast.name, ("pitch", "yeast", "family"))


def bleach_used(facts: Facts) -> Finding | None:
    """Whether bleach touched the kit."""
    sanitiser = facts.record.cleaning.sanitiser
    if isinstance(sanitiser, NotLogged):
        return None
    value = "yes" if sanitiser == "bleach" else "no"
    says = (
        "bleach used as sanitiser" if value == "yes" else f"sanitised with {sanitiser}, no bleach"
    )
    return facts.word("bleach_used", value, says, ("cleaning", "sanitiser"))


_LINE_OVERDUE_HOURS = 28 * 24.0


def line_cleaned(facts: Facts) -> Finding | None:
    """Whether the draught line was cleaned within four weeks (common practice, no source)."""
    since = facts.record.serving.line_cleaned
    if isinstance(since, NotLogged):
        return None
    value = "overdue" if since.value > _LINE_OVERDUE_HOURS else "recent"
    says = f"line last cleaned {show(since, Field.DURATION)} ago"
    return facts.word("line_cleaned", value, says, ("serving", "line_cleaned"))


def dry_hopped(facts: Facts) -> Finding | None:
    """Whether hops went in cold."""
    hops = facts.record.recipe.hops
    used = [hop.use for hop in hops if not isinstance(hop.use, NotLogged)]
    events = [event.what for event in facts.record.events]
    if "dry hop" in used or "dry hopped" in events:
        return facts.word("dry_hopped", "yes", "dry hopped", ("recipe", "hops"))
    if used and len(used) == len(hops):
        return facts.word("dry_hopped", "no", "not dry hopped", ("recipe", "hops"))
    return None


def mash_scorch_signs(facts: Facts) -> Finding | None:
    """Whether scorching was seen on the element or the kettle bottom."""
    seen = {
        getattr(facts.record, section).scorching: (section, "scorching")
        for section in ("boil", "mash")
    }
    if "yes" in seen:
        return facts.word("mash_scorch_signs", "yes", "scorching seen on the heater", seen["yes"])
    if "no" in seen:
        return facts.word("mash_scorch_signs", "no", "no scorching seen", seen["no"])
    return None


def open_transfer(facts: Facts) -> Finding | None:
    """Whether beer met air on its way into the package or between vessels."""
    fill = facts.record.packaging.fill
    path = ("packaging", "fill")
    if any(event.what == "racked" and event.purged == "no" for event in facts.record.events):
        return facts.word("open_transfer", "yes", "racked without purging", ("events",))
    if fill in ("open pour", "siphon"):
        return facts.word("open_transfer", "yes", f"filled by {fill}", path)
    if not isinstance(fill, NotLogged):
        return facts.word("open_transfer", "no", f"filled by {fill}", path)
    return None


def glass_colour(facts: Facts) -> Finding | None:
    """The glass the beer stood in; none for keg, can and cask."""
    packaging = facts.record.packaging
    if not isinstance(packaging.glass, NotLogged):
        path = ("packaging", "glass")
        return facts.word("glass_colour", packaging.glass, f"{packaging.glass} glass", path)
    if packaging.package in ("keg", "can", "cask"):
        says = f"in a {packaging.package}, no glass"
        return facts.word("glass_colour", "none", says, ("packaging", "package"))
    return None
