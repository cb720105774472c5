"""Lactose and its like: gravity that no beer yeast can take."""

from typing import NamedTuple

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Addition, Fermentable
from diagnose.evidence.facts import Facts, over, sum_of
from diagnose.evidence.measures.additions import Side, side_of
from diagnose.evidence.measures.named import lists_of, says_any
from diagnose.process import Band
from diagnose.process.attenuation import gravity_points
from diagnose.units import Reading

# These sweeten by the pinch and add no gravity to speak of.
_WITHOUT_GRAVITY = ("stevia", "sucralose", "saccharin")
_G_PER_KG = 1000.0
_NONE = Band(0.0, 0.0, 0.0)


class Unfermentable(NamedTuple):
    """Points of gravity that stay: put in before the original was read, and after it."""

    before: Band
    after: Band


def unfermentable_points(facts: Facts) -> Unfermentable | None:
    """What lactose and maltodextrin give; None where one is named but its weight is not known."""
    volume, sweet = facts.record.volume, _sweeteners(facts)
    if not sweet:
        return Unfermentable(_NONE, _NONE)
    if isinstance(volume, NotLogged):
        return None
    points: dict[bool, list[Band]] = {True: [], False: []}
    for amount, side in sweet:
        if isinstance(amount, NotLogged):
            return None
        late = side in ("cold", "package")
        points[late].append(_points(facts, over(amount, volume)))
    return Unfermentable(sum_of(points[False]), sum_of(points[True]))


def _sweeteners(facts: Facts) -> list[tuple[Reading | NotLogged, Side | None]]:
    recipe = facts.record.recipe
    lines: tuple[Fermentable | Addition, ...] = (*recipe.fermentables, *recipe.other)
    return [
        (one.amount, side_of(facts, one.added))
        for one in lines
        if "sweetener" in lists_of(one.name) and not says_any(one.name, _WITHOUT_GRAVITY)
    ]


def _points(facts: Facts, g_per_l: Band) -> Band:
    return facts.model(
        lambda *, g_per_l, full, share: gravity_points(
            [(g_per_l / _G_PER_KG, full, share)], volume_l=1.0
        ),
        g_per_l=g_per_l,
        full=facts.constants["unfermentable_points"],
        share=facts.constants["unfermentable_share"],
    )
