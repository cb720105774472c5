"""What `batch check` and `batch show` answer."""

from pydantic import Field as Key

from diagnose.answers.caution import CautionLine
from diagnose.answers.diagnosis import OddEntry
from diagnose.answers.part import Said


class EntryLine(Said):
    """One entry of a record: what was typed and what it was read as."""

    key: str
    typed: str
    read_as: str
    line: int


class MeasureLine(Said):
    """One measure of a batch; the numbers are None for a class, and outside what a model covers."""

    id: str
    name: str
    low: float | None = None
    mid: float | None = None
    high: float | None = None
    unit: str = ""
    value: str | None = None
    says: str
    formula: str
    sources: tuple[str, ...] = ()
    where: str


class CitedSource(Said):
    """A source that some measures rest on."""

    id: str
    citation: str


class OpenMeasure(Said):
    """A measure that lacks an entry.

    Written down together, the entries of `closed_by` would close it; none are named where the
    measure has no place in this batch.
    """

    id: str
    name: str
    closed_by: tuple[str, ...]
    asks: str


class IonLine(Said):
    """One figure of a water with its range; the numbers are None where it is not known."""

    name: str
    unit: str
    low: float | None = None
    mid: float | None = None
    high: float | None = None


class SaltForm(Said):
    """What a salt adds in one of the forms it may have [mg/L]."""

    form: str
    ions: dict[str, float]


class SaltLine(Said):
    """One salt of the record, and the water that its ions are spread over.

    `spread_over` is the part of the brew it went into, or the whole brew where the water of that
    part is not known; `litres` is None where neither is.
    """

    salt: str
    amount: str
    into: str
    spread_over: str
    litres: float | None
    forms: tuple[SaltForm, ...]
    scale_error_percent: float | None
    advice: str
    line: int


class WaterPart(Said):
    """The water of one part of the brew, salts and all."""

    part: str
    litres: float | None
    ions: tuple[IonLine, ...]
    residual_alkalinity: IonLine


class WaterAnswer(Said):
    """The brewing water: sources, salts, and what comes of them."""

    sources: tuple[str, ...]
    salts: tuple[SaltLine, ...]
    parts: tuple[WaterPart, ...]
    remarks: tuple[str, ...]


class BatchAnswer(Said):
    """A record with its entries and its measures; cautions come first."""

    schema_: str = Key(default="faultwort/batch-show/1", serialization_alias="schema")
    batch: str
    beer: str
    cautions: tuple[CautionLine, ...]
    entries: tuple[EntryLine, ...]
    measures: tuple[MeasureLine, ...]
    sources: tuple[CitedSource, ...]
    water: WaterAnswer | None
    open_measures: tuple[OpenMeasure, ...]
    odd_entries: tuple[OddEntry, ...]


class BatchCheck(Said):
    """A record that can be used, and what looks odd in it; cautions come first."""

    schema_: str = Key(default="faultwort/batch-check/1", serialization_alias="schema")
    batch: str
    cautions: tuple[CautionLine, ...]
    entries: int
    odd_entries: tuple[OddEntry, ...]
