"""Figures with no more digits than their range is worth."""

from math import log10

# A range is told in at least so many steps of its last digit.
_FEWEST_STEPS = 3.0
# A figure rounded further off than this share of itself gets one more decimal.
_FURTHEST_OFF = 0.1
_MOST_DECIMALS = 9
# A range of no more than this share of its ends is what reckoning leaves behind, not a range.
_CRUMBS = 1e-9
# A series is told in at least so many steps of its last digit.
_STEPS_OF_A_SERIES = 30.0


def figures(band: tuple[float, float, float]) -> tuple[str, str, str]:
    """A value and the two ends of its range, all with the same decimals.

    Args:
        band: the value, its low and its high end [any unit].

    Returns:
        The three in that order: "8 (1 to 16)", "5.5 (5.2 to 5.7)", "1.6 (0.9 to 7.0)". A value
        without a range has three figures at most; noughts that all three end in are left out.
    """
    value, low, high = band
    crumbs = _CRUMBS * max(abs(low), abs(high))
    decimals = _decimals_for(high - low, value) if high - low > crumbs else _few_figures(value)
    mid, least, most = (f"{edge:.{decimals}f}" for edge in (value, low, high))
    while decimals and all(text.endswith("0") for text in (mid, least, most)):
        mid, least, most = mid[:-1], least[:-1], most[:-1]
        decimals -= 1
    return _plain(mid), _plain(least), _plain(most)


def signed_figures(band: tuple[float, float, float]) -> tuple[str, str, str]:
    """As `figures`, for a difference: a plus before all that is above nought."""
    mid, low, high = (f"+{text}" if float(text) > 0.0 else text for text in figures(band))
    return mid, low, high


def figure(value: float, decimals: int | None = None) -> str:
    """One number, never as a power of ten, and without the sign of a nought.

    Args:
        value: any unit.
        decimals: as many; None is three figures at most.
    """
    if decimals is None:
        return figures((value, value, value))[0]
    return _plain(f"{value:.{decimals}f}")


def decimals_in_steps(width: float) -> int | None:
    """The decimals in which a series that spreads over `width` is told; None if by crumbs only."""
    for decimals in range(_MOST_DECIMALS):
        if width * 10**decimals > _STEPS_OF_A_SERIES:
            return decimals
    return None


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
