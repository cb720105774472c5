"""In which figures a trend is told."""

from diagnose.answers.history_looking import Trend
from diagnose.units.scales import Scales, scales_over


def trend_scales(trend: Trend) -> Scales:
    """The scales of a trend's unit, with the decimals that its values and limits are worth."""
    values = [end for one in trend.points for end in (one.value, one.low, one.high)]
    return scales_over(trend.unit, values, difference=trend.difference)
