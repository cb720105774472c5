"""Dated things that any later batch may feel: noted ones, and those the records tell."""

from collections.abc import Sequence

from diagnose.history.brews import Brew, notes_of
from diagnose.history.kinds import EventNote
from diagnose.history.opening import Store


def events_over(store: Store, brews: Sequence[Brew]) -> list[tuple[str, str]]:
    """(day as YYYY-MM-DD, words) of every dated event, in order, each once.

    What befell one beer is left out: later batches do not feel it.
    """
    noted = [(one.note.at, one.note.typed) for one in notes_of(store, EventNote)]
    told = [
        (event.on, event.text)
        for brew in brews
        for event in brew.events
        if event.kind == "equipment"
    ]
    return sorted({(day[:10], words) for day, words in (*noted, *told) if day})
