"""Synthetic brewers: batches with known factors, built without files or a store."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np

from diagnose.history.brews import Brew, Measured, Tasting

FLAW = "butter"
BUTTERY = ("buttery", frozenset({FLAW}))
PLANTED = "yeast_generation"
FIRST_DAY = date(2024, 1, 6)


def brew(
    number: int,
    flawed: bool | None,
    measures: Mapping[str, Measured] | None = None,
    factors: Mapping[str, tuple[str, ...]] | None = None,
    weeks: int = 3,
) -> Brew:
    """Batch `number`, brewed some weeks after the one before; `flawed` None: nobody tasted it."""
    on = (FIRST_DAY + timedelta(weeks=weeks * number)).isoformat()
    reported = {FLAW: None} if flawed else {}
    words = "buttery" if flawed else "clean, no butter"
    absent = frozenset() if flawed else frozenset({FLAW})
    tasting = Tasting("Wren", None, words, reported, absent)
    return Brew(
        key=f"batch-{number:02d}",
        name=f"batch {number}",
        brewed_on=on,
        brewer="Tansy",
        style_id=None,
        yeast_id=None,
        method=None,
        rules_version="",
        measures=measures or {},
        factors=factors or {},
        events=(),
        tastings=() if flawed is None else (tasting,),
        verdicts=(),
    )


def planted(seed: int = 0) -> list[Brew]:
    """25 batches, 8 of them flawed: those pitched with reused yeast.

    Three decoys moved with the yeast: the vessel always, the hop lot but for one batch, the
    brewer but for two. Beside them twelve factors and six measures that say nothing.
    """
    random = np.random.default_rng(seed)
    exposed = np.zeros(25, dtype=bool)
    exposed[random.choice(25, 8, replace=False)] = True
    flawed = exposed.copy()
    lot, helper = exposed.copy(), exposed.copy()
    away = random.permutation(np.flatnonzero(exposed))
    lot[away[0]] = False
    helper[away[1:3]] = False
    kept = {
        "vessel": np.where(exposed, "steel bucket", "glass carboy"),
        "lot": np.where(lot, "hop 12", "hop 13"),
        "brewer": np.where(helper, "tansy", "sorrel"),
    }
    return [
        brew(
            number,
            bool(flawed[number]),
            {PLANTED: "reused" if exposed[number] else "first"}
            | {f"measure {i}": _number(random) for i in range(6)},
            {key: (str(words[number]),) for key, words in kept.items()} | _noise(random),
        )
        for number in range(25)
    ]


def nothing_planted(seed: int) -> list[Brew]:
    """25 batches, 8 flawed at random; twenty factors and six measures that say nothing."""
    random = np.random.default_rng(seed)
    flawed = set(random.choice(25, 8, replace=False).tolist())
    return [
        brew(
            number,
            number in flawed,
            {f"measure {i}": _number(random) for i in range(6)},
            _noise(random, 20),
        )
        for number in range(25)
    ]


def _number(random: np.random.Generator) -> tuple[float, float, float]:
    value = float(random.normal())
    return value - 1.0, value, value + 1.0


def _noise(random: np.random.Generator, factors: int = 12) -> dict[str, tuple[str, ...]]:
    return {f"factor {i}": (str(random.choice(["this", "that"])),) for i in range(factors)}
