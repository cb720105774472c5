"""One cell of a table: nothing logged, or a number with perhaps a unit behind it."""

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple
from unicodedata import normalize

# Common practice: what loggers, spreadsheets and data tools write for "no reading".
MISSING_WORDS = frozenset(
    {"", "nan", "null", "none", "na", "n/a", "#n/a", "-", "--", "---", "nil", "err", "error", "?"}
    | {"unavailable", "unknown", "inf", "-inf", "infinity", "#num!", "#value!", "#ref!", "#div/0!"}
)

# Judgement: no sensor says more than this in any unit.
LARGEST = 1e12

# Every spelling of a unit that a header or a cell may carry, without marks and spaces.
UNIT_WORDS = {
    **dict.fromkeys(("c", "degc", "degreec", "degreesc", "celsius", "centigrade"), "C"),
    **dict.fromkeys(("degcelsius", "degreescelsius", "gradc", "gradcelsius"), "C"),
    **dict.fromkeys(("f", "degf", "degreef", "degreesf", "fahrenheit"), "F"),
    **dict.fromkeys(("degfahrenheit", "degreesfahrenheit"), "F"),
    **dict.fromkeys(("k", "kelvin"), "K"),
    **dict.fromkeys(("sg", "specificgravity"), "SG"),
    **dict.fromkeys(("p", "plato", "degp", "degplato", "degreesplato"), "P"),
    **dict.fromkeys(("bx", "brix", "degbrix"), "Bx"),
    **dict.fromkeys(("points", "pts", "gu", "gravitypoints"), "points"),
    **dict.fromkeys(("psi", "psig"), "psi"),
    **dict.fromkeys(("bar", "barg"), "bar"),
    **dict.fromkeys(("mbar", "hpa", "millibar"), "mbar"),
    "kpa": "kPa",
    **dict.fromkeys(("v", "volt", "volts"), "V"),
    **dict.fromkeys(("mv", "millivolt", "millivolts"), "mV"),
    "%": "%",
    "percent": "%",
    "dbm": "dBm",
}

_NUMBER = re.compile(
    r"([+-]?)\s?"
    r"(\d+(?:[ '’\u00a0\u202f]\d{3})+(?:[.,]\d*)?|\d[\d.,]*|[.,]\d+)"
    r"(e[+-]?\d{1,3})?\s*(.*)",
    re.IGNORECASE | re.DOTALL,
)
_SPACES = re.compile(r"[ '’\u00a0\u202f]")
_NOT_LETTERS = re.compile(r"[^a-zµ%]")
_GROUPED = {
    ".": re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d*)?"),
    ",": re.compile(r"\d{1,3}(?:\.\d{3})+(?:,\d*)?"),
}
_OTHER = {".": ",", ",": "."}


class Number(NamedTuple):
    """A number as written: sign, figures with their marks, exponent, and the unit behind it."""

    sign: str
    figures: str
    exponent: str
    unit: str


def is_missing(cell: str) -> bool:
    """Whether a cell says that nothing was logged."""
    return cell.strip().lower() in MISSING_WORDS


def unit_of(text: str) -> str:
    """The unit a word stands for ("°C", "deg F", "SG"), or "" when it is none."""
    plain = normalize("NFKC", text).lower().replace("â°", "")
    return UNIT_WORDS.get(_NOT_LETTERS.sub("", plain), "")


@lru_cache(maxsize=65_536)
def as_number(cell: str) -> Number | None:
    """A cell taken apart as a number, or None when it is something else."""
    found = _NUMBER.fullmatch(cell.strip().replace("\u2212", "-"))
    if found is None:
        return None
    sign, figures, exponent, tail = found.groups()
    unit = unit_of(tail) if tail else ""
    if tail and not unit:
        return None
    return Number(sign, _SPACES.sub("", figures), exponent or "", unit)


def value_of(number: Number, decimal_sign: str) -> float | None:
    """What a number is worth when `decimal_sign` is "." or ","; None when the sign does not fit."""
    figures = number.figures
    other = _OTHER[decimal_sign]
    if other in figures:
        if not _GROUPED[decimal_sign].fullmatch(figures):
            return None
        figures = figures.replace(other, "")
    if figures.count(decimal_sign) > 1:
        return None
    value = float(number.sign + figures.replace(decimal_sign, ".") + number.exponent)
    return value if abs(value) <= LARGEST else None


class Marks(NamedTuple):
    """How many numbers carry a point or a comma that can only be a decimal sign.

    `doubtful` are those whose mark could also part thousands, `last` is the last such mark and
    `last_row` its row.
    """

    points: int = 0
    commas: int = 0
    doubtful: int = 0
    last: str = ""
    last_row: int = -1

    def __add__(self, other: object) -> "Marks":
        if not isinstance(other, Marks):
            return NotImplemented
        later = max(self, other, key=lambda marks: marks.last_row)
        return Marks(
            self.points + other.points,
            self.commas + other.commas,
            self.doubtful + other.doubtful,
            later.last,
            later.last_row,
        )

    @property
    def sign(self) -> tuple[str, bool]:
        """The decimal sign these marks speak for.

        Returns:
            "." or ",", or "" when no number carries a mark; and whether the marks leave a doubt
            because each could also part thousands.
        """
        if self.points or self.commas:
            return ("." if self.points >= self.commas else ","), False
        return self.last, bool(self.doubtful)


def marks_of(numbers: Iterable[tuple[int, Number]]) -> Marks:
    """The marks of numbers, each with its row."""
    points = commas = doubtful = 0
    last, last_row = "", -1
    for row, number in numbers:
        mark = _decimal_mark(number.figures)
        points += mark == "."
        commas += mark == ","
        if mark == "?":
            doubtful += 1
            last, last_row = "," if "," in number.figures else ".", row
    return Marks(points, commas, doubtful, last, last_row)


def _decimal_mark(figures: str) -> str:
    """The mark that can only be a decimal sign, "?" when it may part thousands, or ""."""
    point, comma = figures.rfind("."), figures.rfind(",")
    if point < 0 and comma < 0:
        return ""
    if point >= 0 and comma >= 0:
        return "." if point > comma else ","
    mark = "." if point >= 0 else ","
    if _GROUPED[_OTHER[mark]].fullmatch(figures):
        # "0.998" and "1.052" look like thousands, yet nobody parts a leading zero.
        return "?" if not figures.startswith("0") else mark
    return mark
