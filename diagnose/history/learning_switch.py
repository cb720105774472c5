"""The switch that says whether a diagnosis uses what the batches taught; off until it is set."""

from datetime import datetime

from diagnose.history.brews import notes_of
from diagnose.history.kinds import LearningSwitch
from diagnose.history.noting import correct_note, write_note
from diagnose.history.opening import Store


def is_on(store: Store) -> bool:
    """Whether it is switched on.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    found = notes_of(store, LearningSwitch)
    return found[-1].note.on if found else False


def switch(store: Store, now: datetime, *, on: bool) -> None:
    """Switch it on or off, as the next version of the one note that says so.

    Raises:
        StoreUnusable: the store cannot be written.
    """
    found = notes_of(store, LearningSwitch)
    note = LearningSwitch(on=on, at=now.date().isoformat())
    if found:
        correct_note(store, found[-1].uid, note, now)
    else:
        write_note(store, note, now)
