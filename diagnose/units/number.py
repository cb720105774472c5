"""Numbers as people write them: 18,5 and 1 1/2 and 2 x 10^11, and 1,052 with its two readings."""

import math
import re
from dataclasses import dataclass
from typing import Final

_DIGITS = r"(?:\d+(?:[.,]\d+)*[.,]?|[.,]\d+)"
_EXPONENT = r"(?:e[+-]?\d+|\s?[x*]\s?10\^[+-]?\d+)"
NUMBER: Final = re.compile(
    r"(?P<mixed>(?:\d+ )?\d{1,2}/\d{1,2})(?!\d)"
    r"|(?P<power>10\^\d+)"
    r"|(?P<spaced>\d{1,3}(?: \d{3})+(?![\d/]))"
    rf"|(?P<plain>{_DIGITS})(?P<exponent>{_EXPONENT})?"
)
_FRACTION_PARTS = (2, 3, 4, 8, 16)
_FIRST_GROUP = re.compile(r"[1-9]\d{0,2}")


@dataclass(frozen=True)
class Number:
    """A number as written.

    `decimal` is the value with a comma or point as the decimal mark; `thousands` is the second
    reading, with the comma as a thousands mark, where it has one. `step` is the size of the last
    digit written, `decimals` how many stand after the mark.
    """

    decimal: float
    thousands: float | None = None
    step: float = 1.0
    decimals: int = 0

    @property
    def values(self) -> tuple[float, ...]:
        """Every value the written figure could have."""
        return (self.decimal,) if self.thousands is None else (self.decimal, self.thousands)


def read_number(match: re.Match[str]) -> Number | None:
    """The number a match of `NUMBER` stands for; None if it is not one ("18.5.3", "7/5")."""
    if match["mixed"]:
        return _fraction(match["mixed"])
    if match["power"]:
        return _finite(Number(_power(match["power"].removeprefix("10^"))))
    if match["spaced"]:
        return Number(float(match["spaced"].replace(" ", "")))
    mantissa = _mantissa(match["plain"].rstrip(".,"))
    if mantissa is None or not match["exponent"]:
        return _finite(mantissa)
    exponent = re.sub(r"^e|^\s?[x*]\s?10\^", "", match["exponent"])
    times = _power(exponent)
    return _finite(Number(mantissa.decimal * times, None, mantissa.step * times))


def _power(exponent: str) -> float:
    return float(f"1e{exponent}")


def _finite(number: Number | None) -> Number | None:
    return number if number is not None and math.isfinite(number.decimal) else None


def _fraction(text: str) -> Number | None:
    whole, _, parts = text.rpartition(" ")
    above, below = (int(part) for part in parts.split("/"))
    if below not in _FRACTION_PARTS or not 0 < above < below:
        return None
    return Number(int(whole or 0) + above / below, None, 1 / below)


def _mantissa(text: str) -> Number | None:
    if "," in text and "." in text:
        decimal_mark = max(",.", key=text.rindex)
        grouping = "," if decimal_mark == "." else "."
        whole, _, rest = text.partition(decimal_mark)
        known = rest.isdigit() and _is_grouped(whole, grouping)
        return _decimal(f"{whole.replace(grouping, '')}.{rest}") if known else None
    mark = "," if "," in text else "."
    if text.count(mark) > 1:
        return Number(float(text.replace(mark, ""))) if _is_grouped(text, mark) else None
    number = _decimal(text.replace(",", "."))
    if mark == "," and _is_grouped(text, ","):
        # 1,052 is 1.052 to one half of the world and 1052 to the other.
        return Number(number.decimal, float(text.replace(",", "")), number.step, number.decimals)
    return number


def _is_grouped(text: str, mark: str) -> bool:
    """Whether every group after the first has three digits, and the first one to three."""
    first, *rest = text.split(mark)
    return bool(rest and _FIRST_GROUP.fullmatch(first)) and all(len(group) == 3 for group in rest)


def _decimal(text: str) -> Number:
    decimals = len(text.partition(".")[2])
    return Number(float(text), None, 10.0**-decimals, decimals)
