"""What was understood of a tasting note, and what was not."""

from collections.abc import Mapping
from typing import Literal

from pydantic import BaseModel, ConfigDict

from diagnose.flavour.meaning import Role
from diagnose.flavour.words import Intensity

State = Literal["reported", "absent"]


class _Result(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class Candidate(_Result):
    """A descriptor a phrase may mean, with its share (0 to 1)."""

    id: str
    score: float


class Heard(_Result):
    """One flavour read in the note.

    `intensity` is None when the taster gave none. `certainty` (0 to 1) is how far the reading is
    trusted, not how strong the flavour is. `alternatives` are other meanings of the same words.
    """

    said: str
    descriptor: str
    state: State
    intensity: Intensity | None
    certainty: float
    alternatives: tuple[Candidate, ...] = ()


class Doubt(_Result):
    """Words that may mean several things, and one question that tells the first two apart."""

    said: str
    candidates: tuple[Candidate, ...]
    ask: str


class Account(_Result):
    """Some words of the note and the part they were taken to play."""

    said: str
    role: Role


class Understanding(_Result):
    """A tasting note as understood; `account` holds every word of it once, in order.

    `praise` holds the words of praise of a note that names no fault.
    """

    heard: tuple[Heard, ...]
    doubts: tuple[Doubt, ...]
    not_understood: tuple[str, ...]
    circumstances: Mapping[str, str]
    notes: tuple[str, ...]
    praise: tuple[str, ...] = ()
    account: tuple[Account, ...]
