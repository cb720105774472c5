"""Measures, circumstances and checks: what can be found out about a batch and its fault."""

from pydantic import Field, model_validator

from diagnose.knowledge.card import Card, Judged, Shares


class Measure(Judged):
    """A number or class that process models and the record give.

    `typical` is the spread among home batches: `(value, share)`; it serves to weigh whether
    a missing entry is worth asking for. `about` names what it depends on: two measures about
    the same thing may not both speak to one cause. `source` is that of the spread; `rests_on`
    names the sources of the formula and of the constants it reads.
    """

    id: str
    name: str
    unit: str = ""
    classes: tuple[str, ...] = ()
    about: str
    entries: tuple[str, ...]
    asks: str
    minutes: float = Field(gt=0)
    typical: tuple[tuple[float | str, float], ...]
    formula: str = ""
    rests_on: tuple[str, ...] = ()
    note: str = ""

    @model_validator(mode="after")
    def _typical_is_a_spread(self) -> "Measure":
        total = sum(share for _, share in self.typical)
        if abs(total - 1.0) > 0.011:
            raise ValueError(f"found shares that sum to {total:.3f}; wanted a sum of 1")
        strangers = [v for v, _ in self.typical if self.classes and v not in self.classes]
        if strangers:
            raise ValueError(f"found {strangers[0]!r}; wanted one of {', '.join(self.classes)}")
        return self


class CircumstanceValue(Card):
    """One value of a circumstance: its share among faulty home batches and how it is said."""

    share: float = Field(gt=0, lt=1)
    says: str


class Circumstance(Judged):
    """Something true of the fault itself.

    `same_as` names findings that say the same thing: of two, only the louder counts.
    `when_expected` are the shares where the flavour is no fault but what yeast or style bring.
    """

    id: str
    name: str
    asks: str
    minutes: float = Field(gt=0)
    values: dict[str, CircumstanceValue]
    when_expected: Shares | None = None
    same_as: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _every_value_has_its_share(self) -> "Circumstance":
        if self.when_expected is not None and set(self.when_expected) != set(self.values):
            wanted = ", ".join(self.values)
            raise ValueError(f"found other values under when_expected; wanted {wanted}")
        return self


class CheckResult(Card):
    """One result of a check."""

    id: str
    says: str


class CheckSpeaks(Judged):
    """The shares of a check's results when a cause is at work, or a compound is there."""

    cause: str | None = None
    compound: str | None = None
    shares: Shares

    @model_validator(mode="after")
    def _speaks_for_one(self) -> "CheckSpeaks":
        if (self.cause is None) == (self.compound is None):
            raise ValueError("found both or neither; wanted either 'cause' or 'compound'")
        return self


class Check(Judged):
    """Something cheap the brewer can do now; the basis is that of its minutes and `otherwise`.

    `same_as` names findings that say the same thing: of two, only the louder counts.
    """

    id: str
    name: str
    asks: str
    minutes: float = Field(gt=0)
    needs: tuple[str, ...] = ()
    how: tuple[str, ...] = Field(min_length=1)
    cannot_show: str
    results: tuple[CheckResult, ...] = Field(min_length=2)
    speaks_for: tuple[CheckSpeaks, ...] = Field(min_length=1)
    otherwise: Shares
    same_as: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
