"""Three-digit codes that suggest nothing."""

from itertools import pairwise
from random import Random

from diagnose.errors import Fault, UnusableInput


def plain_codes() -> tuple[str, ...]:
    """Every three-digit number without a repeated digit, a run (123, 987) or a zero in front."""
    return tuple(str(number) for number in range(100, 1000) if _is_plain(str(number)))


def _is_plain(code: str) -> bool:
    steps = {int(b) - int(a) for a, b in pairwise(code)}
    return len(set(code)) == len(code) and steps not in ({1}, {-1})


def draw_codes(count: int, random: Random) -> tuple[str, ...]:
    """Codes for so many glasses, none of them twice.

    Args:
        count: glasses.
        random: the source of the draw.

    Raises:
        UnusableInput: more glasses than there are codes.
    """
    codes = plain_codes()
    if count > len(codes):
        wanted = f"at most {len(codes)} coded glasses in one panel"
        raise UnusableInput(Fault("split ballots", 0, "tasters", f"{count} glasses", wanted))
    return tuple(random.sample(codes, count))
