"""What else went in, and on which side: spice, wood, fruit, sugar, enzyme."""

import re
from typing import Literal, NamedTuple

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Fermentable
from diagnose.documents import Path
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import ClassFinding, Finding
from diagnose.evidence.measures.as_recorded import dry_hopped
from diagnose.evidence.measures.named import SPECIAL, lists_of, says_any
from diagnose.units import Reading

Side = Literal["hot", "cold", "package"]

# How brewers say when something went in; judgement. Cold words are looked for first, since
# "in the fermenter after the boil" names both.
_COLD = (
    *("fermenter", "fermentor", "fermentation", "primary", "secondary", "keg", "cask", "racking"),
    *("conditioning", "maturation", "krausen", "after pitching", "cold side", "dry hop"),
)
_PACKAGE = ("packaging", "bottling", "kegging", "bottle", "priming")
_HOT = (
    *("mash", "sparge", "kettle", "boil", "whirlpool", "flameout", "flame out", "hot stand"),
    *("minute", "min", "lauter", "hot"),
)
_DAY_NUMBER = re.compile(r"\bday\s*(\d+)|\b(?:after|for)\s+(\d+)\s*(?:day|week)", re.IGNORECASE)
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
# Of the kit itself only these words mean that the beer lies on wood: a wooden spoon does not.
_WOODEN_VESSEL = ("oak", "wood", "barrel", "stave")
_NOT_WOODEN = ("plastic", "pressure", "steel", "stainless")
_FOOD = ("enzyme", "fruit", "sugar")
_LATE = {
    "enzyme": "an enzyme went in after the boil",
    "fruit": "fruit went in after the boil",
    "sugar": "sugar or honey went in after the boil",
}


class Added(NamedTuple):
    """One line of the recipe: what it is called, the lists it stands on, and its side."""

    name: str
    lists: frozenset[str]
    side: Side | None
    path: Path


class Food(NamedTuple):
    """Food for the yeast: what it is, and how much of it went in [g]."""

    of: Literal["sugar", "honey", "fruit"]
    amount: Reading | NotLogged


def side_of(facts: Facts, added: str | NotLogged) -> Side | None:
    """On which side of the cooling something went in; None where the record does not tell."""
    if isinstance(added, NotLogged):
        return None
    if _is_after_brew_day(facts, added):
        return "cold"
    words: tuple[tuple[Side, tuple[str, ...]], ...] = (
        ("cold", _COLD),
        ("package", _PACKAGE),
        ("hot", _HOT),
    )
    return next((side for side, phrases in words if says_any(added, phrases)), None)


def _is_after_brew_day(facts: Facts, added: str) -> bool:
    """Whether a date or a day number lies after brew day."""
    brewed, date, day = facts.timeline.brewed, _DATE.search(added), _DAY_NUMBER.search(added)
    if date is not None:
        return brewed is not None and date[0] > brewed.date().isoformat()
    return day is not None and int(day[1] or day[2]) > 0


def _grist(facts: Facts) -> list[Added]:
    return [
        Added(
            str(item.name or item.kind or ""),
            _lists_of_grist(item),
            side_of(facts, item.added),
            ("recipe", "fermentables", index),
        )
        for index, item in enumerate(facts.record.recipe.fermentables)
    ]


def _others(facts: Facts) -> list[Added]:
    return [
        Added(
            str(item.name or ""),
            lists_of(item.name),
            side_of(facts, item.added),
            ("recipe", "other", index),
        )
        for index, item in enumerate(facts.record.recipe.other)
    ]


def _lists_of_grist(item: Fermentable) -> frozenset[str]:
    """The lists of a line of the grist; its kind is believed before its name."""
    kind = item.kind if isinstance(item.kind, str) else ""
    if kind.endswith(("malt", "extract")):
        return frozenset()
    lists = lists_of(item.name) - {"fruit", "sugar"} if kind else lists_of(item.name)
    if kind in ("sugar", "honey") and "sweetener" not in lists:
        return lists | {"sugar"}
    return lists | {"fruit"} if kind == "fruit" else lists


def special_addition(facts: Facts) -> Finding | None:
    """An addition with a taste of its own, or none; open where a line is not understood."""
    found: list[tuple[str, str, Path]] = [
        (key, one.name, one.path)
        for one in (*_others(facts), *_grist(facts))
        for key in SPECIAL
        if key in one.lists
    ]
    found += [
        ("fresh_hops", "fresh hops", ("recipe", "hops", index))
        for index, hop in enumerate(facts.record.recipe.hops)
        if hop.form == "fresh"
    ]
    if not found:
        says = "nothing with a taste of its own besides malt, hops and yeast"
        path: Path = ("recipe",)
        return facts.word("special_addition", "none", says, path) if _all_told(facts) else None
    value = found[0][0] if len({key for key, *_ in found}) == 1 else "several"
    names = " and ".join(dict.fromkeys(name for _, name, _ in found))
    return facts.word("special_addition", value, f"{names} in the recipe", found[0][2])


def _all_told(facts: Facts) -> bool:
    """Whether every line of the recipe says what it is; one that does not could be anything."""
    recipe = facts.record.recipe
    grist_told = all(one.name for one in _grist(facts))
    hops_told = all(isinstance(hop.form, str) or isinstance(hop.pack, str) for hop in recipe.hops)
    others_told = all(one.lists for one in _others(facts))
    listed = bool(recipe.fermentables and recipe.hops)
    return listed and grist_told and hops_told and others_told


def cold_side_addition(facts: Facts) -> Finding | None:
    """What touched the cold beer: wood before anything else, hops last."""
    measure = "cold_side_addition"
    if (wood := _wood(facts)) is not None:
        return facts.word(measure, "wood", f"{wood[0]}: the beer lay on wood", wood[1])
    passing = [one for one in _cold_lines(facts) if not one.lists & {"finings", "priming"}]
    for one in passing:
        if one.side in ("cold", "package"):
            says = f"{one.name or 'something'} added to the cold beer"
            return facts.word(measure, "other", says, one.path)
    hopped = dry_hopped(facts)
    # An addition of which nobody says when it went in may have been a cold one.
    if not isinstance(hopped, ClassFinding) or any(one.side is None for one in passing):
        return None
    if hopped.value == "yes":
        return ClassFinding(measure, "hops", "dry hops touched the cold beer", hopped.where)
    return ClassFinding(measure, "none", "nothing was added to the cold beer", hopped.where)


def _cold_lines(facts: Facts) -> list[Added]:
    """What may have touched the cold beer; a line of the grist without a word was in the kettle."""
    grist = (one for one in _grist(facts) if "fruit" in one.lists or one.side == "cold")
    return [*_others(facts), *grist]


def _wood(facts: Facts) -> tuple[str, Path] | None:
    """What the record calls the wood, and where."""
    kit: tuple[tuple[str | NotLogged, Path], ...] = (
        (facts.record.fermentation.vessel, ("fermentation", "vessel")),
        (facts.record.equipment.note, ("equipment", "note")),
    )
    for text, path in kit:
        if isinstance(text, str) and is_wooden(text):
            return text, path
    return next(((one.name, one.path) for one in _others(facts) if "wood" in one.lists), None)


def is_wooden(text: str) -> bool:
    """Whether words about the kit mean a vessel of wood or wood in it."""
    return says_any(text, _WOODEN_VESSEL) and not says_any(text, _NOT_WOODEN)


def late_sugars(facts: Facts) -> Finding | None:
    """Food for the yeast, or an enzyme that makes it, added after the boil; priming apart."""
    lines = [*_others(facts), *_grist(facts)]
    for value in _FOOD:
        for one in lines:
            if value in one.lists and one.side == "cold" and "priming" not in one.lists:
                says = f"{one.name}: {_LATE[value]}"
                return facts.word("late_sugars", value, says, one.path)
    grist = facts.record.recipe.fermentables
    if not grist or any(_may_be_late(one) for one in lines) or _told_in_an_event(facts):
        return None
    says = "no fruit, sugar or enzyme after the boil"
    return facts.word("late_sugars", "none", says, ("recipe", "fermentables"))


def fed_late(facts: Facts) -> tuple[Food, ...]:
    """Sugar, honey and fruit that went in after the boil; priming apart."""
    recipe = facts.record.recipe
    lines = [*_grist(facts), *_others(facts)]
    amounts = [*(one.amount for one in recipe.fermentables), *(one.amount for one in recipe.other)]
    return tuple(
        Food(_food_of(one), amount)
        for one, amount in zip(lines, amounts, strict=True)
        if one.side == "cold"
        and one.lists & {"sugar", "fruit"}
        # Lactose and its like feed nothing; priming is of the package.
        and not one.lists & {"sweetener", "priming"}
    )


def _food_of(one: Added) -> Literal["sugar", "honey", "fruit"]:
    if says_any(one.name, ("honey",)):
        return "honey"
    return "sugar" if "sugar" in one.lists else "fruit"


def _may_be_late(one: Added) -> bool:
    """Whether a line could be late food; sugar without a word is taken to be of the kettle."""
    if not one.name:
        return True
    return one.side is None and bool(one.lists & {"enzyme", "fruit"})


def _told_in_an_event(facts: Facts) -> bool:
    """Whether a note of the cellar names such food; it may have gone in, or flies may have come."""
    return any(
        isinstance(event.note, str) and bool(lists_of(event.note) & set(_FOOD))
        for event in facts.record.events
    )
