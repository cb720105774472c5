"""Ballots held against the key."""

from diagnose.sensory import DIFFERENCE_FROM_CONTROL
from diagnose.trial.ballots import Ballot, Box
from diagnose.trial.panel import Panel
from diagnose.trial.sealing import Key

_SUSPECT = "S"


def is_right(test: str, key: Key, ballot: Ballot, codes: tuple[str, ...]) -> bool:
    """Whether a ballot is right.

    Args:
        test: a forced-choice test.
        key: which arm is in which glass.
        ballot: the ballot.
        codes: all codes of its serving.
    """
    arms = [key.arms[code] for code in codes]
    chosen = [key.arms[code] for code in ballot.chosen]
    if test == "triangle":
        return arms.count(chosen[0]) == 1
    if test == "tetrad":
        return chosen[0] == chosen[1]
    if test == "duo-trio":
        return chosen[0] == key.open_glass[f"{ballot.taster} {ballot.round}"]
    return chosen[0] == _SUSPECT


def counts_by_taster(panel: Panel, box: Box, key: Key) -> dict[str, tuple[int, int]]:
    """Right answers and answers of every taster whose ballots are in; not for ratings."""
    codes = {(one.taster, one.round): one.codes for one in panel.servings}
    counts: dict[str, tuple[int, int]] = {}
    for ballot in box.ballots:
        right, answers = counts.get(ballot.taster, (0, 0))
        hit = is_right(panel.test, key, ballot, codes[ballot.taster, ballot.round])
        counts[ballot.taster] = (right + hit, answers + 1)
    return counts


def ratings_of(panel: Panel, box: Box, key: Key) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Ratings of the suspect beer and of the control in disguise, ballot by ballot."""
    if panel.test != DIFFERENCE_FROM_CONTROL:
        return (), ()
    suspect: list[float] = []
    control: list[float] = []
    for ballot in box.ballots:
        for code, rating in ballot.ratings.items():
            (suspect if key.arms[code] == _SUSPECT else control).append(float(rating))
    return tuple(suspect), tuple(control)


def pairs_from_ratings(suspect: tuple[float, ...], control: tuple[float, ...]) -> tuple[int, int]:
    """Ratings as counts: how often the suspect beer was farther off, of all that differed."""
    gaps = [one - other for one, other in zip(suspect, control, strict=True) if one != other]
    return sum(gap > 0 for gap in gaps), len(gaps)
