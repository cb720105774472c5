"""Lactose and its like: gravity that no beer yeast can take."""

from typing import NamedTuple

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Addition, Fermentable
from diagnose.evidence.facts import Facts, band_of, over, point, sum_of
from diagnose.evidence.measures.additions import side_of
from diagnose.evidence.measures.named import lists_of, says_any
from diagnose.process import Band
from diagnose.process.attenuation import gravity_points
from diagnose.units import GRAMS_PER_KILOGRAM, Reading

_LACTOSE = ("lactose", "milk sugar")
# These sweeten by the pinch and add no gravity to speak of.
_WITHOUT_GRAVITY = ("stevia", "sucralose", "saccharin")
_NONE, _ALL = point(0.0), point(1.0)


class Unfermentable(NamedTuple):
    """Points of gravity that stay: put in before the original was read, and after it."""

    before: Band
    after: Band


def unfermentable_points(facts: Facts) -> Unfermentable | None:
    """What lactose and maltodextrin give; None where one is named but its weight is not known."""
    before, after = points_that_stay(facts, late=False), points_that_stay(facts, late=True)
    return None if before is None or after is None else Unfermentable(before, after)


def points_that_stay(facts: Facts, *, late: bool) -> Band | None:
    """The points that no yeast takes, of what went in before the original was read, or after it."""
    volume, sweet = facts.record.volume, _sweeteners(facts, late=late)
    if not sweet:
        return _NONE
    if isinstance(volume, NotLogged):
        return None
    points = [
        _points(facts, over(one.amount, volume), _share_left(facts, one.name))
        for one in sweet
        if isinstance(one.amount, Reading)
    ]
    return sum_of(points) if len(points) == len(sweet) else None


def sweetener_points_l(facts: Facts) -> Band | None:
    """All the gravity that sweeteners brought before the original was read [points x L].

    None where the weight of one is not known.
    """
    sweet = _sweeteners(facts, late=False)
    grams = [band_of(one.amount) for one in sweet if isinstance(one.amount, Reading)]
    if len(grams) < len(sweet):
        return None
    return _points(facts, sum_of(grams), _ALL) if grams else _NONE


def is_sweetener(line: Fermentable | Addition) -> bool:
    """Whether a line of the recipe is lactose or its like."""
    return "sweetener" in lists_of(line.name)


def _sweeteners(facts: Facts, *, late: bool) -> list[Fermentable | Addition]:
    recipe = facts.record.recipe
    lines: tuple[Fermentable | Addition, ...] = (*recipe.fermentables, *recipe.other)
    return [
        one
        for one in lines
        if is_sweetener(one)
        and not says_any(one.name, _WITHOUT_GRAVITY)
        and (side_of(facts, one.added) in ("cold", "package")) is late
    ]


def _share_left(facts: Facts, name: str | NotLogged) -> Band:
    return facts.constants["lactose_share" if says_any(name, _LACTOSE) else "dextrin_share"]


def _points(facts: Facts, grams: Band, share: Band) -> Band:
    """Points that a litre would have of so many grams, or points x L of all of them."""
    return facts.model(
        lambda *, grams, full, share: gravity_points(
            [(grams / GRAMS_PER_KILOGRAM, full, share)], volume_l=1.0
        ),
        grams=grams,
        full=facts.constants["unfermentable_points"],
        share=share,
    )
