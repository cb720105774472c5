"""Counts of a tasting as they are typed: "5 of 8, 6 of 8", "3,2,4 of 4", a file of tasters."""

import re

from diagnose.errors import Fault, UnusableInput

_OF = re.compile(r"(\d+|-|\?)(?:\s*(?:of|/)\s*(\d+))?")
_LINE = re.compile(r"(?:^|[\s,;:])(\d+)\s*(?:of|,|;|/|\s)\s*(\d+)$", re.IGNORECASE)
_MOST_ITEMS = 1000


def counts_each(typed: str, key: str = "--each") -> tuple[tuple[int, int], ...]:
    """Right answers and answers of each taster, from "3,2,4 of 4" or "3 of 4, 2 of 3".

    Raises:
        UnusableInput: it cannot be read so.
    """
    found = _pairs(typed, key)
    if any(right is None for right, _ in found):
        raise _refusal(key, typed, "a count for every taster, such as '3,2,4 of 4'")
    return tuple((right, rounds) for right, rounds in found if right is not None)


def counts_by_evening(typed: str, key: str = "--evenings") -> tuple[tuple[int | None, int], ...]:
    """Right answers and answers of each evening, "-" for one still to come.

    Raises:
        UnusableInput: it cannot be read so, or an evening was left out in between.
    """
    found = _pairs(typed, key)
    tasted = [right is not None for right, _ in found]
    if tasted != sorted(tasted, reverse=True):
        raise _refusal(key, typed, "the evenings in order, those still to come ('-') last")
    return found


def sizes_by_evening(typed: str, key: str = "--evenings") -> tuple[int, ...]:
    """Planned answers of each evening, from "8,8,8".

    Raises:
        UnusableInput: it cannot be read so.
    """
    parts = [part.strip() for part in typed.split(",")]
    if not all(re.fullmatch(r"\d{1,6}", part) for part in parts):
        raise _refusal(key, typed, "the answers planned for each evening, such as '8,8,8'")
    return tuple(int(part) for part in parts)


def ratings(typed: str, key: str) -> tuple[float, ...]:
    """Ratings of each taster in turn, from "3, 5, 2".

    Raises:
        UnusableInput: one of them is no number.
    """
    parts = [part.strip() for part in typed.split(",")]
    if not all(re.fullmatch(r"\d{1,3}(?:\.\d+)?", part) for part in parts):
        raise _refusal(key, typed, "a rating from every taster, such as '3,5,2'")
    return tuple(float(part) for part in parts)


def counts_in_file(name: str, text: str) -> tuple[tuple[int, int], ...]:
    """Right answers and answers of each taster, one taster a line: "c, 3 of 4" or "c,3,4".

    A first line of words alone is a heading; "#" starts a remark.

    Raises:
        UnusableInput: a line that cannot be read so; every such line is named.
    """
    counts: list[tuple[int, int]] = []
    faults: list[Fault] = []
    for number, line in enumerate(text.splitlines(), start=1):
        told = line.split("#", 1)[0].strip()
        if not told or (not counts and not faults and not re.search(r"\d", told)):
            continue
        match = _LINE.search(told)
        if match is None:
            wanted = "right answers and answers of one taster, such as 'c, 3 of 4'"
            faults.append(Fault(name, number, "", repr(told[:40]), wanted))
            continue
        counts.append((int(match[1]), int(match[2])))
    if not counts and not faults:
        faults.append(Fault(name, 0, "", "no tasters", "one taster a line, such as 'c, 3 of 4'"))
    if faults:
        raise UnusableInput(*faults)
    return tuple(counts)


def one_count(typed: str, key: str) -> tuple[int, int]:
    """One count, "3 of 20".

    Raises:
        UnusableInput: it cannot be read so.
    """
    found = counts_each(typed, key)
    if len(found) != 1:
        raise _refusal(key, typed, "one count, such as '3 of 20'")
    return found[0]


def _pairs(typed: str, key: str) -> tuple[tuple[int | None, int], ...]:
    matches = [_OF.fullmatch(part.strip().casefold()) for part in typed.split(",")]
    read = [match for match in matches if match is not None]
    wanted = "counts such as '3,2,4 of 4' or '3 of 4, 2 of 3'"
    if len(read) < len(matches) or len(read) > _MOST_ITEMS or read[-1][2] is None:
        raise _refusal(key, typed, wanted)
    of, pairs = 0, []
    for match in reversed(read):
        of = int(match[2]) if match[2] is not None else of
        pairs.append((int(match[1]) if match[1].isdigit() else None, of))
    return tuple(reversed(pairs))


def _refusal(key: str, typed: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(key, 0, "", repr(typed[:60]), wanted))
