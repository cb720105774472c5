"""The line of names above the readings: whether there is one, its units, and whether it fits."""

import re
from collections import Counter
from collections.abc import Sequence

from diagnose.batch.probe.cells import as_number, is_missing, unit_of
from diagnose.batch.probe.cutting import Row
from diagnose.batch.probe.log import Understood
from diagnose.batch.probe.stamps import kind_of

TIME_WORDS = re.compile(
    r"time|date|datum|zeit|uhr|heure|hora|fecha|when|stamp|logged|recorded", re.IGNORECASE
)


def find_header(
    above: Sequence[Row], time_at: tuple[int, ...]
) -> tuple[tuple[str, ...], Understood, int]:
    """The header above the readings, why it is one, and how many lines stand above the table."""
    rows = list(above)
    units: list[str] = []
    if len(rows) > 1 and _is_units_row(rows[-1][1]):
        units = rows.pop()[1]
    if not rows or not is_header(rows[-1][1], time_at):
        why = "the first reading has no line of words above it"
        return (), Understood("none", why, certain=False), above[-1][0] if above else 0
    line, cells = rows[-1]
    cells = [cells[0].lstrip("#").strip(), *cells[1:]]
    units += [""] * (len(cells) - len(units))
    named = tuple(
        f"{cell} ({unit})" if unit else cell for cell, unit in zip(cells, units, strict=False)
    )
    why = "words in every column, right above the first reading"
    return named, Understood(str(line), why, certain=True), line - 1


def _is_units_row(cells: Sequence[str]) -> bool:
    filled = [cell for cell in cells if cell]
    return bool(filled) and all(unit_of(cell) for cell in filled)


def is_header(cells: Sequence[str], time_at: tuple[int, ...] = (0,)) -> bool:
    """Whether a line is one of names: two cells or more, words only, reaching the time's column."""
    filled = [cell for cell in cells if cell]
    wordy = all(as_number(cell) is None and not kind_of(cell) for cell in filled)
    return len(cells) > 1 and bool(filled) and wordy and len(cells) >= max(time_at)


def names_columns(cells: Sequence[str], time_at: int) -> bool:
    """Whether a line further down is a header, with a word for time where the times stand."""
    said = cells[time_at]
    if said[:1].isdigit() or len(cells) < 2 or not TIME_WORDS.search(said):
        return False
    return all(cell and as_number(cell) is None and not is_missing(cell) for cell in cells)


def fit_header(
    header: tuple[str, ...], sample: Sequence[Sequence[str]], time_at: tuple[int, ...]
) -> tuple[str, ...]:
    """The header, moved right by one when the rows start with a number that it does not name."""
    at = time_at[0]
    if not header or at == 0 or len(header) != _usual_width(sample) - 1:
        return header
    named = TIME_WORDS.search(header[at]) if at < len(header) else None
    return ("", *header) if TIME_WORDS.search(header[at - 1]) and not named else header


def _usual_width(sample: Sequence[Sequence[str]]) -> int:
    """The commonest number of cells in a row, without empty ones at its end."""
    widths = Counter(
        max((at + 1 for at, cell in enumerate(row) if cell), default=0) for row in sample
    )
    return widths.most_common(1)[0][0]


def cut_decimals(header: Sequence[str], sample: Sequence[Sequence[str]]) -> bool:
    """Whether rows such as 2024-10-01,19,5 have had their decimal commas cut in two."""
    if _usual_width(sample) <= len(header):
        return False
    return not any("." in cell for row in sample for cell in row if not kind_of(cell))
