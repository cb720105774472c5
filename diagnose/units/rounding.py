"""Figures with no more digits than their range is worth."""

from math import log10

# A range is told in at least so many steps of its last digit.
_FEWEST_STEPS = 3.0
# A figure rounded further off than this share of itself gets one more decimal.
_FURTHEST_OFF = 0.1
_MOST_DECIMALS = 9


def figures(band: tuple[float, float, float]) -> tuple[str, str, str]:
    """A value and the two ends of its range, all with the same decimals.

    Args:
        band: the value, its low and its high end [any unit].

    Returns:
        The three in that order: "8 (1 to 16)", "5.5 (5.2 to 5.7)", "1.6 (0.9 to 7.0)". A value
        without a range has three figures at most; noughts that all three end in are left out.
    """
    value, low, high = band
    decimals = _decimals_for(high - low, value) if high > low else _few_figures(value)
    mid, least, most = (f"{edge:.{decimals}f}" for edge in (value, low, high))
    while decimals and all(text.endswith("0") for text in (mid, least, most)):
        mid, least, most = mid[:-1], least[:-1], most[:-1]
        decimals -= 1
    return _plain(mid), _plain(least), _plain(most)


def _decimals_for(width: float, value: float) -> int:
    for decimals in range(_MOST_DECIMALS):
        if width * 10**decimals > _FEWEST_STEPS:
            off = abs(round(value, decimals) - value)
            return decimals + 1 if off > _FURTHEST_OFF * abs(value) else decimals
    return _MOST_DECIMALS


def _few_figures(value: float) -> int:
    if value == 0.0:
        return 0
    decimals = max(2 - int(log10(abs(value)) // 1), 0)
    return min(decimals, 1 if abs(value) >= 1.0 else _MOST_DECIMALS)


def _plain(text: str) -> str:
    """The figure without a bare point, and without the sign of a nought."""
    text = text.removesuffix(".")
    return text.removeprefix("-") if not text.strip("-0.") else text
