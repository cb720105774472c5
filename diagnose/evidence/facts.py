"""What a measure may draw on: the record, its dates, the probe log, the beer and the rules."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from inspect import signature

from diagnose.batch import Batch, BatchRecord, Timeline
from diagnose.batch.probe import ProbeLog
from diagnose.documents import Path
from diagnose.evidence.beer import Beer
from diagnose.evidence.finding import ClassFinding, NumberFinding
from diagnose.flavour import Lexicon
from diagnose.knowledge import Compound
from diagnose.process import Band, OutsideValidity, spread
from diagnose.units import Reading

# Which constant holds the error of an instrument that several measures read.
HYDROMETER = "hydrometer_error"
THERMOMETER = "thermometer_error"
PH = "ph_error"
BATCH_VOLUME = "batch_volume_scale"
# Differences of two readings; besides them only temperatures lie below zero.
_DIFFERENCES = frozenset(
    {
        *("attenuation_gap", "points_left_to_ferment", "gravity_drop_after_final"),
        "ph_drop_after_final",
    }
)


def _may_be_negative(measure: str) -> bool:
    return measure.endswith("_c") or measure in _DIFFERENCES


@dataclass(frozen=True)
class Facts:
    """Everything a measure may look at."""

    batch: Batch
    timeline: Timeline
    log: ProbeLog | None
    beer: Beer
    constants: Mapping[str, Band]
    lexicon: Lexicon
    compounds: Mapping[str, Compound]

    @property
    def record(self) -> BatchRecord:
        """The record."""
        return self.batch.record

    def where(self, *path: str | int) -> str:
        """File and line of an entry, as shown beside a finding."""
        document = self.batch.document
        line = document.line(path)
        return f"{document.name}:{line}" if line else document.name

    def number(self, measure: str, band: Band, says: str, path: Path) -> NumberFinding:
        """A number finding that stands at `path` of the record; no amount is less than nothing."""
        possible = band if _may_be_negative(measure) else band.kept_within(0.0, float("inf"))
        return NumberFinding(measure, possible, says, self.where(*path))

    def word(self, measure: str, value: str, says: str, path: Path) -> ClassFinding:
        """A class finding that stands at `path` of the record."""
        return ClassFinding(measure, value, says, self.where(*path))

    def read(self, reading: Reading, error: str) -> Band:
        """A reading with its range, no narrower than its usual error, a constant about 0."""
        return band_of(reading, self.constants[error])

    def read_times(self, reading: Reading, scale: str) -> Band:
        """The same where the usual error is in proportion, a constant about 1."""
        share = self.constants[scale]
        edges = (reading.value * (edge - 1.0) for edge in (share.low, share.high))
        down, up = sorted(edges)
        return band_of(reading, Band(down, 0.0, up))

    def model(self, function: Callable[..., float], **entries: Band) -> Band:
        """Run a process model over its entries' ranges and those of the constants it uses."""
        reads_constants = "constants" in signature(function).parameters
        return spread(function, entries, self.constants if reads_constants else {})


def point(value: float) -> Band:
    """A value without a range."""
    return Band(value, value, value)


_NO_ERROR = point(0.0)


def band_of(reading: Reading, error: Band = _NO_ERROR) -> Band:
    """A reading with its range, no narrower than the instrument's error about 0."""
    low = min(reading.low, reading.value + error.low)
    high = max(reading.high, reading.value + error.high)
    return Band(low, reading.value, high)


def band_times(reading: Reading, factor: float) -> Band:
    """A reading's own range in another unit."""
    return Band(reading.low * factor, reading.value * factor, reading.high * factor)


def fall(first: Reading, last: Reading, error: Band = _NO_ERROR) -> Band:
    """How far the second reading lies below the first, no surer than the error about 0."""
    mid = first.value - last.value
    low = min(first.low - last.high, mid + error.low)
    return Band(low, mid, max(first.high - last.low, mid + error.high))


def points_of(gravity: Band) -> Band:
    """A difference of gravity [SG] in points of 0.001, without the crumbs of the subtraction."""
    return Band(*(round(1000.0 * edge, 6) for edge in (gravity.low, gravity.mid, gravity.high)))


def over(part: Reading, whole: Reading) -> Band:
    """One reading over another, from its least to its most.

    Raises:
        OutsideValidity: the second may be nothing.
    """
    if whole.low <= 0.0:
        raise OutsideValidity(f"something over {whole.typed}", "more than nothing is wanted")
    return Band(part.low / whole.high, part.value / whole.value, part.high / whole.low)


def sum_of(bands: Iterable[Band]) -> Band:
    """All of these together, their doubts taken to go the same way."""
    low, mid, high = 0.0, 0.0, 0.0
    for band in bands:
        low, mid, high = low + band.low, mid + band.mid, high + band.high
    return Band(low, mid, high)


def widened(band: Band, readings: Iterable[Reading]) -> Band:
    """An error band, at least as wide as the readings it is for are doubtful themselves."""
    down, up = band.mid - band.low, band.high - band.mid
    for reading in readings:
        down, up = max(down, reading.value - reading.low), max(up, reading.high - reading.value)
    return Band(band.mid - down, band.mid, band.mid + up)


def covered(band: Band, lowest: float, highest: float) -> Band:
    """A band whose doubt is cut to what a model covers.

    The middle stays as it is, so that a model still refuses what lies beyond its limits.
    """
    return Band(
        min(max(band.low, lowest), band.mid), band.mid, max(min(band.high, highest), band.mid)
    )


def days_text(days: float) -> str:
    """A whole number of days in words."""
    return f"{days:.0f} day" if f"{days:.0f}" == "1" else f"{days:.0f} days"
