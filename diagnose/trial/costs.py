"""What a split costs: extra brew days, beer and waiting, in one unit."""

from dataclasses import dataclass

from diagnose.knowledge.causes import SplitHint
from diagnose.trial.stages import SPLIT_POINTS

# One unit is an extra brew day, four weeks of waiting or twenty litres of beer. Practice.
_WEEKS_PER_UNIT, _LITRES_PER_UNIT = 4.0, 20.0
COST_WORDS = (
    f"a cost of 1 is an extra brew day, {_WEEKS_PER_UNIT:g} weeks of waiting or "
    f"{_LITRES_PER_UNIT:g} L of beer; a question of 1 bit halves the field"
)
# An evening of pouring and tasting. Judgement.
_PANEL_UNITS, _PANEL_HOURS = 0.25, 2.0


@dataclass(frozen=True)
class Cost:
    """The cost of a split; `units` sums it up, `hours` is work without the waiting.

    `weeks` run from the first day, that of the brew where one has to be brewed, to the tasting.
    """

    brew_days: float
    litres: float
    weeks: float
    hours: float
    units: float


def cost_of(hint: SplitHint, pairs: int = 1) -> Cost:
    """What a split costs.

    Args:
        hint: where and how it is split.
        pairs: pairs of vessels.
    """
    point = SPLIT_POINTS[hint.stage]
    litres = 2.0 * hint.litres * pairs
    days = point.brew_days * pairs
    hours = point.hours * pairs + _PANEL_HOURS
    weeks = point.days_from_brew / 7.0 + hint.weeks
    units = days + weeks / _WEEKS_PER_UNIT + litres / _LITRES_PER_UNIT + _PANEL_UNITS
    return Cost(days, litres, weeks, hours, units)
