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
        raise OutsideValidity(f"{what} {_plain(value)}", f"{_plain(lowest)} to {_plain(highest)}")


def _plain(value: float) -> str:
    """A number without powers of ten: a brewer reads it."""
    short = f"{value:g}"
    return f"{value:,.6f}".rstrip("0").rstrip(".") if "e" in short else short
