"""The fermenter: what it is made of, and whether light gets in."""

import re

from diagnose.batch import NotLogged
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.evidence.measures.additions import is_wooden
from diagnose.evidence.measures.named import says_any, words_of

# Words for vessels; judgement. A stuff named outright is believed before a shape: a conical is
# steel unless it is called plastic. A bare carboy is glass or plastic and says nothing.
_STUFFS = {
    **dict.fromkeys(("plastic", "pet", "hdpe"), "plastic"),
    **dict.fromkeys(("steel", "stainless"), "steel"),
    "glass": "glass",
    **dict.fromkeys(("wood", "wooden", "oak", "clay", "stone"), "other"),
}
_SHAPES = {
    **dict.fromkeys(("bucket", "tub"), "plastic"),
    **dict.fromkeys(("conical", "keg"), "steel"),
    "demijohn": "glass",
    **dict.fromkeys(("barrel", "cask"), "other"),
}
_PRESSURE_BARREL = ("pressure barrel",)
# What follows one of these is about a part of the vessel, or about where it stands.
_ASIDE = re.compile(r"\b(?:with|in|on|under|inside|beside|earlier|whose)\b", re.IGNORECASE)
_CLEAR_WALL = ("clear", "pet")
_LIGHT = {
    "daylight shade": "daylight",
    "direct sun": "daylight",
    "room light": "room_light",
    "shop light": "room_light",
}
# What brown glass leaves of each.
_BEHIND_BROWN = {"daylight": "room_light", "room_light": "sheltered"}
_SAYS = {
    "sheltered": "no light reached the beer in the fermenter",
    "room_light": "lamplight, or a little daylight, reached the beer in the fermenter",
    "daylight": "daylight reached the beer in the fermenter",
}


def vessel_material(facts: Facts) -> Finding | None:
    """What the fermenter is made of, by its name."""
    vessel = facts.record.fermentation.vessel
    material = _material(vessel)
    if material is None:
        return None
    says = f"fermented in: {vessel}"
    return facts.word("vessel_material", material, says, ("fermentation", "vessel"))


def _material(vessel: str | NotLogged) -> str | None:
    if isinstance(vessel, NotLogged):
        return None
    for text in (_ASIDE.split(vessel)[0], vessel):
        words = words_of(text)
        for known in (_STUFFS, _SHAPES):
            named = next((word for word in words if word in known), None)
            if named is not None:
                return "plastic" if says_any(text, _PRESSURE_BARREL) else known[named]
    return None


def fermenter_light(facts: Facts) -> Finding | None:
    """How much light reached the beer through the wall of the fermenter."""
    fermentation = facts.record.fermentation
    if fermentation.light == "dark":
        return _light(facts, "sheltered", "light")
    if (entry := _sheltering(facts)) is not None:
        return _light(facts, "sheltered", entry)
    if isinstance(fermentation.light, NotLogged):
        return None
    value = _LIGHT[fermentation.light]
    wall = _wall(facts)
    if wall == "brown":
        return _light(facts, _BEHIND_BROWN[value], "light")
    if wall == "clear":
        return _light(facts, value, "light")
    # A bucket lets some of the sun through, and little of a lamp.
    return _light(facts, "room_light", "light") if fermentation.light == "direct sun" else None


def _light(facts: Facts, value: str, entry: str) -> Finding:
    return facts.word("fermenter_light", value, _SAYS[value], ("fermentation", entry))


def _sheltering(facts: Facts) -> str | None:
    """The entry that says the wall lets no light through."""
    fermentation = facts.record.fermentation
    vessel = fermentation.vessel
    if says_any(vessel, _CLEAR_WALL):
        return None
    if fermentation.vessel_glass == "none":
        return "vessel_glass"
    wooden = isinstance(vessel, str) and is_wooden(vessel)
    return "vessel" if wooden or _material(vessel) == "steel" else None


def _wall(facts: Facts) -> str | None:
    """Clear (as good as green), brown, or None for a wall that nobody can see through."""
    glass, vessel = facts.record.fermentation.vessel_glass, facts.record.fermentation.vessel
    if glass == "brown" or (isinstance(glass, NotLogged) and says_any(vessel, ("brown", "amber"))):
        return "brown"
    seen_through = says_any(vessel, _CLEAR_WALL) or _material(vessel) == "glass"
    return "clear" if glass in ("clear", "green") or seen_through else None
