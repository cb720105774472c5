"""Which sign parts the cells of a line: tried in turn, and judged by what the cells then say."""

import csv
import re
from collections.abc import Iterator, Sequence

from diagnose.batch.probe.cells import as_number, is_missing
from diagnose.batch.probe.log import Understood
from diagnose.batch.probe.stamps import kind_of

DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab", "|": "pipe"}
# Judgement: enough lines to see past any preamble and any odd stretch.
SAMPLE_LINES = 300
# Judgement: a remark may run over a few lines; a lone quotation mark must not swallow the file.
LONGEST_CELL_LINES = 5

Row = tuple[int, list[str]]


def choose_delimiter(sample: Sequence[str]) -> tuple[str, Understood]:
    """The sign under which most lines hold a time and a reading; "" when none does.

    A line counts when one cell is a date and another a number or a word for "nothing logged";
    ties go to the sign that leaves fewer cells unreadable.
    """
    scores = {sign: _score(sample, sign) for sign in DELIMITERS}
    best = max(scores, key=lambda sign: scores[sign])
    hits, _ = scores[best]
    if not hits:
        return "", Understood("none", "no sign parts a time from a number", certain=False)
    rivals = [DELIMITERS[sign] for sign in DELIMITERS if sign != best and scores[sign][0] >= hits]
    why = f"parts a time from a number on {hits} of {len(sample)} lines looked at"
    if rivals:
        why += f"; {' and '.join(rivals)} would leave more cells unreadable"
    return best, Understood(DELIMITERS[best], why, certain=not rivals)


def sample_of(text: bytes) -> list[str]:
    """The first lines that are not blank, and as many again from all over the rest."""
    half = SAMPLE_LINES // 2
    first: list[bytes] = []
    at = 0
    while at < len(text) and len(first) < half:
        stop = text.find(b"\n", at) + 1 or len(text)
        first.append(text[at:stop])
        if not first[-1].strip():
            first.pop()
        at = stop
    # Lines are taken from evenly spaced places, since counting those of a long file takes time.
    places = [at + number * (len(text) - at) // half for number in range(half)]
    starts = {text.rfind(b"\n", 0, place) + 1 for place in places if at < len(text)}
    rest = [text[start : text.find(b"\n", start) + 1 or len(text)] for start in sorted(starts)]
    lines = [line.decode("utf-8").removesuffix("\n") for line in (*first, *rest)]
    return [line for line in lines if line.strip()]


def cut(line: str, delimiter: str) -> list[str]:
    """The cells of one line, without the space around them."""
    if '"' not in line:
        return [cell.strip() for cell in line.split(delimiter)]
    try:
        cells = next(csv.reader([line], delimiter=delimiter, skipinitialspace=True), [])
    except csv.Error:
        return [line]
    return [cell.strip() for cell in cells]


def cut_all(lines: Sequence[str], delimiter: str) -> Iterator[Row]:
    """Every line that is not blank, as its number from 1 and its cells; long remarks are joined."""
    opens = re.compile(rf'(?:^|{re.escape(delimiter)})\s*"')
    at = 0
    while at < len(lines):
        line, used = lines[at], 1
        if line.count('"') % 2 and opens.search(line):
            line, used = _joined(lines, at, delimiter)
        if line.strip():
            yield at + 1, cut(line, delimiter)
        at += used


def is_reading(cells: Sequence[str]) -> bool:
    """Whether a line holds a date and, in another cell, a number or a word for "nothing logged"."""
    kinds = [kind_of(cell) for cell in cells]
    others = (cell for cell, kind in zip(cells, kinds, strict=True) if not kind)
    dated = "moment" in kinds or "date" in kinds
    return dated and any(is_missing(cell) or as_number(cell) is not None for cell in others)


def _joined(lines: Sequence[str], at: int, delimiter: str) -> tuple[str, int]:
    """A line with those after it that close its quotation mark, and how many lines that are.

    A line that is a reading by itself is never taken for the rest of a remark.
    """
    for used in range(2, LONGEST_CELL_LINES + 1):
        if at + used > len(lines) or is_reading(cut(lines[at + used - 1], delimiter)):
            break
        joined = "\n".join(lines[at : at + used])
        if joined.count('"') % 2 == 0:
            return joined, used
    return lines[at], 1


def _score(sample: Sequence[str], delimiter: str) -> tuple[int, float]:
    """How many lines hold a time and a reading, and how many of their cells are readable."""
    hits, readable = 0, 0.0
    for line in sample:
        cells = cut(line, delimiter)
        kinds = [kind_of(cell) for cell in cells]
        if not {"moment", "date"} & set(kinds):
            continue
        others = [cell for cell, kind in zip(cells, kinds, strict=True) if not kind]
        said = sum(is_missing(cell) or as_number(cell) is not None for cell in others)
        hits += said > 0
        readable += (len(cells) - len(others) + said) / len(cells)
    return hits, readable
