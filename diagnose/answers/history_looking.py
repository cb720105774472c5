"""What `history contrast` and `history trend` answer."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/history-{command}/1", serialization_alias="schema")


class MovedWith(Said):
    """A factor that moved with a suspect.

    `together` is 1 where they never part; `differ` counts the batches in which two yes/no
    factors do; `separable` says whether those batches could tell them apart. Of the batches with
    the suspect alone and of those with this alone so many are flawed; None where that cannot be
    counted.
    """

    name: str
    together: float
    differ: int | None
    separable: bool
    suspect_alone: int | None = None
    suspect_alone_flawed: int | None = None
    this_alone: int | None = None
    this_alone_flawed: int | None = None


class SuspectLine(Said):
    """One factor that was tested.

    `flawed` and `clean` are the batches in which it was logged; `flawed_with` and `clean_with`
    of them have it (None for a number). `effect` is flawed less clean: of shares for a yes/no
    factor, in `unit` for a number; an interval end that is not known is None. `second_p` is
    Boschloo's test or the permutation of means, where made.
    """

    name: str
    test: Literal["Fisher", "Mann-Whitney", "Mann-Whitney, approximate"]
    flawed: int
    clean: int
    flawed_with: int | None
    clean_with: int | None
    p: float
    p_adjusted: float
    claimed: bool
    second_p: float | None
    effect: float
    effect_low: float | None
    effect_high: float | None
    unit: str
    moved_with: tuple[MovedWith, ...]


class SharedCauseLine(Said):
    """One cause as what the flawed batches have in common, by the model.

    `alone` is its mean share in the flawed batches one by one; `pattern_decibans` what the
    measures say when flawed batches are held against clean ones.
    """

    id: str
    name: str
    share: float
    odds: str
    alone: float
    pattern_decibans: float


class SharedCauses(Said):
    """The model's own view across batches.

    `none` is the chance that they have no cause in common, `unknown` that they have one which
    is not in the rule base (it would go with the factors `goes_with`), `own` that it is what
    yeast and style bring. These and the shares of all causes sum to 1.
    """

    flawed: int
    clean: int
    none: float
    unknown: float
    own: float
    goes_with: tuple[str, ...]
    causes: tuple[SharedCauseLine, ...]


class SplitAdvice(Said):
    """The split batch that would settle it: what its arms differ in, and what they share."""

    differ_in: str
    keep_alike: tuple[str, ...]


class Contrast(Said):
    """What separates the flawed batches from the clean ones.

    `clean_in_a_row` is how many clean batches after a change would mean something; the lucks
    are the chances of one and of three though nothing changed.
    """

    schema_: str = _schema("contrast")
    flaw: str
    descriptors: tuple[str, ...]
    flawed: int
    clean: int
    not_tasted: int
    level: float
    tested: int
    beyond_reach: tuple[str, ...]
    suspects: tuple[SuspectLine, ...]
    model: SharedCauses | None
    split: SplitAdvice | None
    clean_in_a_row: int | None
    luck_of_one_clean: float | None
    luck_of_three_clean: float | None
    says: tuple[str, ...]


class TrendPoint(Said):
    """One batch on a chart; `marks` say what is odd about it.

    `jump` is by how much it differs from the batch before, in the chart's unit. `centre`, `low`
    and `high` are the lines it is held against: those of its stretch between two changes of
    level. `above` and `below` are the sums of a CUSUM after it: in spreads for a measure, where
    there are limits; for a flaw `above` is the evidence that it has become common.
    """

    key: str
    brewed_on: str | None
    value: float
    jump: float | None
    centre: float
    low: float | None
    high: float | None
    above: float | None
    below: float | None
    marks: tuple[str, ...]


class NearEvent(Said):
    """Something done near a change."""

    on: str
    words: str


class ChangeLine(Said):
    """A change of level: between which batches, how sure, and what was done near it."""

    last_before: str
    first_after: str
    brewed_on: str | None
    p: float
    before: float
    after: float
    near: tuple[NearEvent, ...]


class FixLine(Said):
    """Something done, and the batches brewed before and since.

    `luck` is the chance that all batches since are clean though nothing changed, None where one
    was flawed or none was flawed before; `more_clean` how many more clean ones would mean
    anything. `p_fewer` is Fisher's one-sided p that the flaw came as often since as before.
    """

    on: str
    words: str
    before: int
    flawed_before: int
    since: int
    flawed_since: int
    luck: float | None
    more_clean: int | None
    p_fewer: float | None
    says: str


class Trend(Said):
    """One series of batches with its chart; limits that are not known are None.

    `centre`, `spread`, `low`, `high` and `range_high` are those since the last change of level,
    which the next batch is to be held against, in `stretch` batches. The spread is what the
    limits and the sums of a measure are made from. `sum_limit` is the sum from which on there is
    a signal; `drift_from` names its batch. `difference` says that the unit counts degrees between
    two temperatures.
    """

    schema_: str = _schema("trend")
    of: str
    unit: str
    difference: bool
    kind: Literal["measure", "flaw"]
    batches: int
    level: float
    stretch: int
    centre: float
    spread: float | None
    low: float | None
    high: float | None
    range_high: float | None
    sum_limit: float | None
    drift_from: str | None
    points: tuple[TrendPoint, ...]
    changes: tuple[ChangeLine, ...]
    fixes: tuple[FixLine, ...]
    says: tuple[str, ...]
