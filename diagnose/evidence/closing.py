"""Which entries would close an open measure, found by trying."""

from collections.abc import Callable
from typing import Any, Final

from diagnose.documents import Path
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.evidence.samples import Samples
from diagnose.evidence.supposing import Asked, Glass

Measuring = Callable[[Facts], Finding | None]
Trial = dict[Path, Any]

# The longest chain of entries, each of which is asked for only once the one before is known.
_ROUNDS: Final = 16
# What few brewers can tell: named only where nothing else would close a measure.
_SELDOM_KNOWN: Final[frozenset[Path]] = frozenset(
    {
        ("pitch", "oxygen", "dissolved"),
        ("pitch", "yeast", "cells"),
        ("boil", "evaporation"),
        ("packaging", "dissolved_oxygen"),
        ("gravity", "attenuation"),
    }
)


def entries_that_close(glass: Glass, measuring: Measuring) -> tuple[Path, ...]:
    """A smallest set of entries that would close an open measure, were they written down.

    The measure is run on the record; whatever it asked for in vain is supposed to hold an
    ordinary value, and it is run again until it gives a finding. Entries it can do without are
    then taken back one by one. So every entry named is one the measure itself looked at, and
    together they are enough; another set may do as well.

    Args:
        glass: the batch's facts and the rules.
        measuring: the measure.

    Returns:
        Paths of entries, those that a brewer can be expected to know if they will do; a list
        without an item is named by the list. Empty where nothing that could still be written
        down would close it: the measure has no place in this batch.
    """
    return _closing(glass, measuring, _SELDOM_KNOWN) or _closing(glass, measuring, frozenset())


def _closing(glass: Glass, measuring: Measuring, barred: frozenset[Path]) -> tuple[Path, ...]:
    samples = Samples(glass.rules, glass.facts.record)
    trial: Trial = {}
    for _ in range(_ROUNDS):
        finding, asked = _tried(glass, measuring, trial)
        if finding is not None:
            return _named(_needed(glass, measuring, trial))
        for path in barred & asked.entries.keys():
            del asked.entries[path]
        longer = _supposing(samples, trial, asked) or _reworded(glass, measuring, (samples, trial))
        if longer is None:
            return ()
        trial = longer
    return ()


def _tried(glass: Glass, measuring: Measuring, trial: Trial) -> tuple[Finding | None, Asked]:
    facts, asked = glass.through(trial)
    return measuring(facts), asked


def _supposing(samples: Samples, trial: Trial, asked: Asked) -> Trial | None:
    """The trial with everything that was asked in vain; another list item only for want of that."""
    entries = {path: samples.of(path) for path in asked.entries if path not in trial}
    if entries:
        items = {path[:end]: None for path in entries for end in _ends_of_items(path)}
        return {**trial, **items, **entries}
    items = {path: None for path in asked.items if path not in trial}
    return {**trial, **items} if items else None


def _ends_of_items(path: Path) -> list[int]:
    return [end + 1 for end, step in enumerate(path) if isinstance(step, int)]


def _reworded(glass: Glass, measuring: Measuring, ground: tuple[Samples, Trial]) -> Trial | None:
    """The trial with one supposed word changed, where that gets the measure any further."""
    samples, trial = ground
    for path in trial:
        if isinstance(path[-1], int):
            continue
        for word in samples.words_of(path):
            other = {**trial, path: word}
            finding, asked = _tried(glass, measuring, other)
            if finding is not None or any(one not in other for one in asked.entries):
                return other
    return None


def _needed(glass: Glass, measuring: Measuring, trial: Trial) -> Trial:
    """The trial less what the measure can do without: the last asked for goes first, or the first.

    Where several sets would do, one of the fewest entries.
    """
    from_last = _without(glass, measuring, trial, list(reversed(trial)))
    from_first = _without(glass, measuring, trial, list(trial))
    return min(from_last, from_first, key=lambda one: len(_named(one)))


def _without(glass: Glass, measuring: Measuring, trial: Trial, order: list[Path]) -> Trial:
    """The trial less what is not wanted, taken back in this order.

    An entry may be wanted only for the sake of another that goes, so the round is made again.
    """
    size = 0
    while len(trial) != size:
        size = len(trial)
        for path in order:
            fewer = {one: value for one, value in trial.items() if one[: len(path)] != path}
            if len(fewer) < len(trial) and _tried(glass, measuring, fewer)[0] is not None:
                trial = fewer
    return trial


def _named(trial: Trial) -> tuple[Path, ...]:
    entries = [path for path in trial if isinstance(path[-1], str)]
    lists = dict.fromkeys(path[:-1] for path in trial if isinstance(path[-1], int))
    bare = [path for path in lists if not any(one[: len(path)] == path for one in entries)]
    return (*entries, *bare)
