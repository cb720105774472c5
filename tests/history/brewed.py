"""Batches and verdicts without a store, for the tests of learning."""

from datetime import date, timedelta

from diagnose.history.brews import Brew, Tasting
from diagnose.history.kinds import Verdict
from diagnose.history.noting import Noted

FIRST = date(2026, 1, 1)
MADE = "2026-11-01T12:00:00Z"


def tasting(words: str = "nothing wrong", who: str = "Wren", *reported: str) -> Tasting:
    return Tasting(who, None, words, dict.fromkeys(reported), frozenset())


def brew(number: int, *tastings: Tasting, verdicts: tuple[Verdict, ...] = (), **measures) -> Brew:
    """The batch of that number, brewed so many days after the first."""
    noted = tuple(
        Noted(f"{number}-{place}", 1, f"b{number}", MADE, note)
        for place, note in enumerate(verdicts)
    )
    return Brew(
        key=f"b{number}",
        name=f"beer {number}",
        brewed_on=(FIRST + timedelta(days=number)).isoformat(),
        brewer=None,
        style_id=None,
        yeast_id=None,
        method=None,
        rules_version="",
        measures=measures,
        factors={},
        events=(),
        tastings=tastings,
        verdicts=noted,
    )


def clean(number: int, **measures) -> Brew:
    return brew(number, tasting(), **measures)


def buttery(number: int, *verdicts: Verdict, **measures) -> Brew:
    told = tasting("buttery", "Wren", "butter")
    return brew(number, told, verdicts=verdicts, **measures)


def verdict(cause: str, confidence: float = 0.8, state: str = "confirmed", **other) -> Verdict:
    return Verdict(cause=cause, confidence=confidence, state=state, **other)
