"""Refusals: what a model says instead of a number it has no ground for."""

from diagnose.process.band import OutsideValidity


def require_within(value: float, limits: tuple[float, float], what: str) -> None:
    """Refuse a value beyond what the source covers.

    Args:
        value: the input.
        limits: lowest and highest value the source covers, in the unit of `value`.
        what: the input in a brewer's words with its unit last, such as "a boil at pH".

    Raises:
        OutsideValidity: the value lies beyond a limit, or is not a number.
    """
    lowest, highest = limits
    if not lowest <= value <= highest:
        raise OutsideValidity(f"{what} {value:g}", f"{lowest:g} to {highest:g}")
