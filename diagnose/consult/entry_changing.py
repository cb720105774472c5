"""Entries set and taken out in a copy of a record's data."""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from diagnose.documents import Path

# What is set aside where an entry is supposed: it would be read in its place.
_GIVES_WAY: dict[tuple[str, ...], tuple[tuple[str, ...], ...]] = {
    ("fermentation", "temperature"): (
        ("fermentation", "steps"),
        ("fermentation", "probe_log"),
        ("fermentation", "peak"),
    ),
    ("mash", "at"): (("mash", "rests"),),
    ("pitch", "yeast", "amount"): (("pitch", "yeast", "cells"),),
}


def with_entry(data: Any, path: Path, value: str, lists: frozenset[str]) -> Any:
    """A copy of the data with an entry set; in every item of a list where no place is given."""
    changed = deepcopy(data)
    _set(changed, path, value, lists)
    return changed


def _set(data: dict[str, Any], path: Path, value: str, lists: frozenset[str]) -> None:
    key, *rest = path
    if not rest:
        data[str(key)] = value
        return
    if key not in lists:
        if not isinstance(data.get(str(key)), dict):
            data[str(key)] = {}
        _set(data[str(key)], tuple(rest), value, lists)
        return
    items = data.get(str(key))
    if not isinstance(items, list) or not items:
        items = data[str(key)] = [{}]
    place = rest.pop(0) if isinstance(rest[0], int) else None
    for item in items if place is None else [items[int(place)]]:
        _set(item, tuple(rest), value, lists)


def place_exists(data: Any, path: Path) -> bool:
    """Whether the places in lists that a path names are there."""
    for step in path:
        if isinstance(step, int):
            if not isinstance(data, list) or step >= len(data):
                return False
            data = data[step]
        elif isinstance(data, dict):
            data = data.get(step)
    return True


def entries_at(data: Any, path: Path, so_far: Path = ()) -> Iterator[tuple[Path, Any]]:
    """What stands at a path, in every item of a list where no place is given."""
    if not path:
        yield so_far, data
    elif isinstance(data, list) and isinstance(path[0], str):
        for place, item in enumerate(data):
            yield from entries_at(item, path, (*so_far, place))
    elif isinstance(data, list):
        yield from entries_at(data[int(path[0])], path[1:], (*so_far, path[0]))
    elif isinstance(data, dict) and path[0] in data:
        yield from entries_at(data[path[0]], path[1:], (*so_far, path[0]))


def without_entry(data: Any, path: Path) -> Any | None:
    """A copy of the data without an entry or a section; None where it is not there."""
    changed = deepcopy(data)
    return changed if _take_out(changed, path) else None


def _take_out(data: Any, path: Path) -> bool:
    key, *rest = path
    if isinstance(data, list) and isinstance(key, str):
        taken = [_take_out(item, path) for item in data]  # out of every item, not the first alone
        return any(taken)
    if isinstance(data, list):
        held = int(key) < len(data)
    else:
        held = isinstance(data, dict) and key in data
    if not held:
        return False
    if rest:
        return _take_out(data[key], tuple(rest))
    del data[key]
    return True


def set_aside(data: Any, keys: tuple[str, ...]) -> tuple[Any, tuple[str, ...]]:
    """A copy of the data without what an entry takes the place of, and what that was."""
    gone = []
    for path in _GIVES_WAY.get(keys, ()):
        left = without_entry(data, path)
        if left is not None:
            data = left
            gone.append(".".join(path))
    return data, tuple(gone)
