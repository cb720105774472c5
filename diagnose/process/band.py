"""A number with its honest range, and how a range passes through a model."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import hypot, isfinite


class OutsideValidity(ValueError):
    """An input beyond what the source of a model covers.

    `what` is the input as found, `limit` the range the source covers; both are clauses, so a
    caller can say "outside what the source covers: a boil at pH 7.1 (5.0 to 5.8)".
    """

    def __init__(self, what: str, limit: str) -> None:
        """Keep both clauses and say them in one sentence."""
        self.what = what
        self.limit = limit
        super().__init__(f"outside what the source covers: {what} ({limit})")


@dataclass(frozen=True)
class Band:
    """A working value and the range it can honestly take; `low` <= `mid` <= `high`, all finite."""

    low: float
    mid: float
    high: float

    def __post_init__(self) -> None:
        """Refuse what is not a range.

        Raises:
            ValueError: an edge is not a finite number, or the three are out of order.
        """
        edges = (self.low, self.mid, self.high)
        if not all(isfinite(edge) for edge in edges) or not self.low <= self.mid <= self.high:
            raise ValueError(f"found a band of {edges}; wanted finite low, mid, high in order")

    def kept_within(self, lowest: float, highest: float) -> "Band":
        """The band cut to what is physically possible, such as no less than nothing."""
        edges = (self.low, self.mid, self.high)
        return Band(*(min(max(edge, lowest), highest) for edge in edges))


def spread(
    function: Callable[..., float], entries: Mapping[str, Band], constants: Mapping[str, Band]
) -> Band:
    """The range of a model's answer when its entries and constants each have a range.

    The model is run once with every value at its middle, then once for each low and each high
    edge with all the others in the middle; constants it did not read are left alone. Deviations
    upward and downward are combined in quadrature, each side by itself. This assumes that the
    entries and constants err independently of one another, and that their effects add.

    Args:
        function: a model, called as `function(**entries, constants=constants)`, or as
            `function(**entries)` when no constants are given.
        entries: the model's measured inputs, by argument name.
        constants: constants by id; all the shipped ones may be given.

    Returns:
        The answer in the model's unit; a point when every input is a point.

    Raises:
        OutsideValidity: an edge lies outside the model's validity, or gives no finite number.

    Source: first-order propagation of uncertainty, common practice, no source. Unlike the usual
        form it takes the two sides apart, because the ranges on the cards are seldom symmetric.
    """
    resting = _Watched({name: band.mid for name, band in constants.items()})
    middles = {name: band.mid for name, band in entries.items()}
    mid = _answer(function, middles, resting)
    read = {name: constants[name] for name in sorted(resting.read)}
    changes = [
        *(
            [_answer(function, {**middles, name: edge}, resting) - mid for edge in _edges(band)]
            for name, band in entries.items()
        ),
        *(
            [_answer(function, middles, {**resting, name: edge}) - mid for edge in _edges(band)]
            for name, band in read.items()
        ),
    ]
    down = hypot(*(max(0.0, 0.0, *(-change for change in pair)) for pair in changes))
    up = hypot(*(max(0.0, 0.0, *pair) for pair in changes))
    return Band(mid - down, mid, mid + up)


class _Watched(Mapping[str, float]):
    """Constants that remember which of them a model looked at."""

    def __init__(self, values: Mapping[str, float]) -> None:
        self._values = values
        self.read: set[str] = set()

    def __getitem__(self, name: str) -> float:
        self.read.add(name)
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)


def _edges(band: Band) -> tuple[float, ...]:
    return (band.low, band.high) if band.low < band.high else ()


def _answer(
    function: Callable[..., float], entries: Mapping[str, float], constants: Mapping[str, float]
) -> float:
    try:
        answer = float(
            function(**entries, constants=constants) if constants else function(**entries)
        )
    except (ZeroDivisionError, OverflowError) as error:
        raise _no_number(function) from error
    if not isfinite(answer):
        raise _no_number(function)
    return answer


def _no_number(function: Callable[..., float]) -> OutsideValidity:
    """The refusal, with the model's name: a nameless one is called after where it stands."""
    where = getattr(function, "__qualname__", "").partition(".<locals>")[0]
    model = where.replace("_", " ").strip()
    found = f"inputs of {model or 'a model'} that together give no number"
    return OutsideValidity(found, "a finite answer is wanted")
