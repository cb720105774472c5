"""What a page shows beside a diagnosis: who brewed and tasted, the figures, the probe trace."""

from collections.abc import Mapping

from diagnose.answers.part import Said


class TastingLine(Said):
    """One tasting; the words as they were written, empty where an entry is not logged."""

    when: str
    who: str
    words: str


class FigureLine(Said):
    """One temperature or volume of the record: what was typed, and it in both systems of units."""

    key: str
    typed: str
    both: str


class Mark(Said):
    """A moment of the batch on the trace, in hours after the first reading."""

    name: str
    hours: float
    when: str


class YeastBand(Said):
    """Where a family of yeast ferments well."""

    name: str
    low_c: float
    high_c: float


class TracePiece(Said):
    """Readings without a gap: hours after the first reading, and temperatures, equally many."""

    hours: tuple[float, ...]
    beer_c: tuple[float, ...]


class TraceDays(Said):
    """Some days of the trace: which, and the coolest, mean and warmest that was logged."""

    days: str
    low_c: float
    mean_c: float
    high_c: float


class Trace(Said):
    """A probe log, thinned for drawing; `in_band` is the share of readings in the
    yeast's band while it fermented."""

    file: str
    what: str
    first: str
    last: str
    hours: float
    pieces: tuple[TracePiece, ...]
    days: tuple[TraceDays, ...]
    marks: tuple[Mark, ...]
    yeast: YeastBand | None
    in_band: float | None


class Background(Said):
    """What a page shows beside a diagnosis; `names` are those of compounds and descriptors."""

    brewer: str
    brewed: str
    tastings: tuple[TastingLine, ...]
    figures: tuple[FigureLine, ...]
    names: Mapping[str, str]
    trace: Trace | None
