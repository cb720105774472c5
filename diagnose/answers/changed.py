"""What moves a ranking, as records: answers that overturn it, pairs, what-if, our own guesses."""

from diagnose.answers.caution import CautionLine
from diagnose.answers.part import Said


class ChanceRange(Said):
    """Eight tenths of a chance's redraws fall in it, its value as our guesses stand too."""

    low: float
    high: float


class Overturned(Said):
    """The fewest answers that would put another cause first.

    `size` is how many it takes, 0 where no three were found to do it; `by` says them, one
    sentence for each way that was found; `keys` are the evidence keys of the first way, and
    `instead` the cause that would then come first.
    """

    size: int
    by: tuple[str, ...]
    keys: tuple[str, ...]
    instead: str
    instead_name: str


class Separating(Said):
    """What to ask to tell the first two causes apart; `id` names it among the next steps.

    `gain_bits` is what it is expected to tell about which of the two it is, `open_bits` how
    much of that is open now.
    """

    id: str = ""
    text: str
    gain_bits: float
    open_bits: float


class PairLine(Said):
    """Two causes that may be behind all groups of words between them.

    `both_needed` is at least how likely it is that they are and neither alone is; `decibans`
    are the odds of the pair over those of the likeliest single cause, at most 60.
    """

    ids: tuple[str, str]
    names: tuple[str, str]
    probability: float
    both_needed: float
    single: float
    decibans: float


class ChangedChance(Said):
    """One explanation as recorded (`was`; None where nobody told of it) and as supposed."""

    id: str
    name: str
    was: float | None
    responsible: float
    was_range: ChanceRange | None = None
    responsible_range: ChanceRange | None = None

    @property
    def change(self) -> float:
        """By how much it moves; what nobody told of before starts from nothing."""
        return self.responsible - (self.was or 0.0)


class ChangedHappening(Said):
    """A cause's chance to have happened at all, whatever it made: as recorded and as supposed."""

    id: str
    name: str
    was: float
    happened: float

    @property
    def change(self) -> float:
        """By how much it moves."""
        return self.happened - self.was


class ChangedGroup(Said):
    """A group of words ranked as supposed: causes, likeliest first, and what is no cause."""

    descriptors: tuple[str, ...]
    names: tuple[str, ...]
    causes: tuple[ChangedChance, ...]
    expected_here: ChangedChance
    not_in_rule_base: ChangedChance


class WhatIf(Said):
    """The ranking under a changed or removed entry; the record itself stays as it is.

    `supposed` and `without` say what was changed, `replaced` what was recorded in that place,
    `set_aside` which entries give way to it; `happened` are causes whose chance to have happened
    moves, the largest change first; `cautions` are those that the recorded batch does not bring.
    """

    supposed: tuple[str, ...]
    without: tuple[str, ...]
    set_aside: tuple[str, ...]
    faults: tuple[ChangedGroup, ...]
    verdict: str
    verdict_text: str
    cautions: tuple[CautionLine, ...] = ()
    replaced: tuple[str, ...] = ()
    happened: tuple[ChangedHappening, ...] = ()
    type_next: str = ""
