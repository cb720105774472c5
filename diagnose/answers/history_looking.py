"""What `history contrast` and `history trend` answer."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/history-{command}/1", serialization_alias="schema")


class MovedWith(Said):
    """A factor that moved with a suspect.

    `together` is 1 where they never part; `differ` counts the batches in which two yes/no
    factors do; `separable` says whether those batches could tell them apart.
    """

    name: str
    together: float
    differ: int | None
    separable: bool


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

    `flawed_decibans` and `clean_decibans` are what the flawed and the clean batches say for it.
    """

    id: str
    name: str
    share: float
    flawed_decibans: float | None
    clean_decibans: float | None


class SharedCauses(Said):
    """The model's own view across batches; the shares with `none` sum to 1 over all causes."""

    flawed: int
    clean: int
    none: float
    causes: tuple[SharedCauseLine, ...]


class Contrast(Said):
    """What separates the flawed batches from the clean ones."""

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
    clean_in_a_row: int | None
    says: tuple[str, ...]


class TrendPoint(Said):
    """One batch on a chart; `marks` say what is odd about it."""

    key: str
    brewed_on: str | None
    value: float
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
    anything.
    """

    on: str
    words: str
    before: int
    flawed_before: int
    since: int
    flawed_since: int
    luck: float | None
    more_clean: int | None
    says: str


class Trend(Said):
    """One series of batches with its chart; limits that are not known are None."""

    schema_: str = _schema("trend")
    of: str
    unit: str
    kind: Literal["measure", "flaw"]
    batches: int
    level: float
    centre: float
    low: float | None
    high: float | None
    range_high: float | None
    drift_from: str | None
    points: tuple[TrendPoint, ...]
    changes: tuple[ChangeLine, ...]
    fixes: tuple[FixLine, ...]
    says: tuple[str, ...]
