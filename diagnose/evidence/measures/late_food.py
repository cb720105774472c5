"""Sugar, honey and fruit that went in after the original gravity was read."""

from diagnose.batch import NotLogged
from diagnose.evidence.facts import Facts, over, point, sum_of
from diagnose.evidence.measures.additions import Food, fed_late
from diagnose.evidence.measures.yields import EXTRACT_KG_PER_KG, OTHER_POINTS_L_PER_KG, YIELD_SCALE
from diagnose.process import Band
from diagnose.units import GRAMS_PER_KILOGRAM, Reading

_FRUIT_POINTS_L_PER_KG = EXTRACT_KG_PER_KG["fruit"] * OTHER_POINTS_L_PER_KG["sugar"]
# Fruit holds half of that or half as much again, by kind and ripeness; judgement.
_FRUIT_SCALE = Band(0.5, 1.0, 1.5)


def points_fed_late(facts: Facts) -> Band | None:
    """Gravity that food for the yeast would have added to the original, had it been in it.

    In points of 0.001 SG; None where something is named but its weight or the volume is not known.
    """
    food, volume = fed_late(facts), facts.record.volume
    if not food:
        return point(0.0)
    weighed = [(one, one.amount) for one in food if isinstance(one.amount, Reading)]
    if isinstance(volume, NotLogged) or len(weighed) < len(food):
        return None
    return sum_of(_points(one, over(amount, volume)) for one, amount in weighed)


def _points(one: Food, grams_per_l: Band) -> Band:
    scale = _FRUIT_SCALE if one.of == "fruit" else YIELD_SCALE
    full = _FRUIT_POINTS_L_PER_KG if one.of == "fruit" else OTHER_POINTS_L_PER_KG[one.of]
    by_gram = full / GRAMS_PER_KILOGRAM
    return Band(
        grams_per_l.low * scale.low * by_gram,
        grams_per_l.mid * by_gram,
        grams_per_l.high * scale.high * by_gram,
    )
