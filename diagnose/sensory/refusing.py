"""Counts and shares that no tasting can have, refused in one sentence each."""

from collections.abc import Sequence
from math import isfinite

from diagnose.errors import Fault, UnusableInput

# A panel beyond this is a slip of the key, and would only keep the machine busy.
MOST_ANSWERS = 10_000
MOST_TASTERS, MOST_ROUNDS = 500, 100


def require_counts(right: int, answers: int) -> None:
    """Refuse a result that cannot be.

    Args:
        right: number of right answers.
        answers: number of answers.

    Raises:
        UnusableInput: no answers, too many, fewer than no right ones, or more right than given.
    """
    require_answers(answers)
    if right < 0:
        raise _refusal("correct", str(right), "0 or more right answers")
    if right > answers:
        found = f"{right} right of {answers}"
        raise _refusal("correct", found, f"no more right answers than the {answers} given")


def require_answers(answers: int) -> None:
    """Refuse a panel without tasters, or one that nobody can pour for.

    Raises:
        UnusableInput: below 1 or above 10,000.
    """
    if answers < 1:
        raise _refusal("tasters", str(answers), "at least one taster")
    if answers > MOST_ANSWERS:
        raise _refusal("tasters", str(answers), f"at most {MOST_ANSWERS:,} answers")


def require_tasters(counts: Sequence[tuple[int, int]]) -> None:
    """Refuse rounds by the same tasters that cannot be.

    Args:
        counts: for each taster, right answers and answers.

    Raises:
        UnusableInput: nobody, a crowd, a taster with more than 100 answers or impossible ones.
    """
    if not 1 <= len(counts) <= MOST_TASTERS:
        raise _refusal("tasters", str(len(counts)), f"1 to {MOST_TASTERS} tasters")
    for right, rounds in counts:
        require_counts(right, rounds)
        if rounds > MOST_ROUNDS:
            raise _refusal("rounds", str(rounds), f"at most {MOST_ROUNDS} answers of one taster")


def require_alpha(alpha: float) -> None:
    """Refuse a risk of a false alarm that decides nothing.

    Raises:
        UnusableInput: 0 or less, or a half or more.
    """
    if not 0.0 < alpha < 0.5:
        wanted = "a risk of a false alarm above 0 and below 0.5, such as 0.1"
        raise _refusal("alpha", f"{alpha:g}", wanted)


def require_share(key: str, share: float) -> None:
    """Refuse a share or a chance that is not between 0 and 1.

    Raises:
        UnusableInput: 0 or less, or 1 or more.
    """
    if not 0.0 < share < 1.0:
        raise _refusal(key, f"{share:g}", "a share above 0 and below 1, such as 0.5")


def require_dprime(dprime: float) -> None:
    """Refuse a distance between two beers that is none.

    Raises:
        UnusableInput: not above 0, or above 10.
    """
    if not isfinite(dprime) or not 0.0 < dprime <= 10.0:
        raise _refusal("dprime", f"{dprime:g}", "a distance d' above 0 and up to 10, such as 1.5")


def _refusal(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault("panel", 0, key, found, wanted))
