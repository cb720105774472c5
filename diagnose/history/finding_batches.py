"""Finding a batch by what is typed for it: its key or name, or a beginning that fits only one."""

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, Final

from sqlalchemy import Connection, Row, func, select

from diagnose.errors import Fault, UnusableInput
from diagnose.history.tables import batches, versions
from diagnose.history.writing_down import slug

_SHOWN: Final = 8
_NEAR_ENOUGH: Final = 0.75  # of 1, by difflib. Judgement.


@dataclass(frozen=True)
class Numbered:
    """A batch in the store: its row, its key and the number of its current version."""

    id: int
    key: str
    current: int


def numbered(connection: Connection, typed: str) -> Numbered:
    """The batch whose key is `typed`, else the only one whose key begins with it or its words.

    Raises:
        UnusableInput: none does, or several do.
    """
    exact = select(batches.c.id, batches.c.key).where(batches.c.key == typed)
    found: Sequence[Row[Any]] = list(connection.execute(exact))
    found = found or _beginning_with(connection, typed) or _named(connection, typed)
    if len(found) != 1 or not typed:
        keys = [str(one.key) for one in found] or _near(connection, typed)
        raise UnusableInput(_not_one(typed, keys))
    row = found[0]
    current = select(func.max(versions.c.number)).where(versions.c.batch_id == row.id)
    return Numbered(int(row.id), str(row.key), int(connection.execute(current).scalar() or 0))


def _beginning_with(connection: Connection, start: str) -> Sequence[Row[Any]]:
    near = select(batches.c.id, batches.c.key).where(
        batches.c.key.startswith(start, autoescape=True)
    )
    return list(connection.execute(near.order_by(batches.c.key).limit(_SHOWN + 1)))


def _named(connection: Connection, typed: str) -> Sequence[Row[Any]]:
    """The batches whose key begins with the words as a key writes them."""
    told = any(letter.isalnum() for letter in typed)
    return _beginning_with(connection, slug(typed)) if told else []


def _near(connection: Connection, typed: str) -> list[str]:
    """Keys whose beginning is a slip away from what was typed."""
    wanted = slug(typed)
    keys = connection.execute(select(batches.c.key).order_by(batches.c.key)).scalars()
    starts = {str(key): str(key)[: len(wanted)] for key in keys}
    near = set(get_close_matches(wanted, starts.values(), _SHOWN, _NEAR_ENOUGH))
    return [key for key, start in starts.items() if start in near]


def _not_one(typed: str, keys: list[str]) -> Fault:
    if not keys or not typed:
        wanted = "a batch that 'faultwort history list' shows"
    else:
        more = ", …" if len(keys) > _SHOWN else ""
        wanted = f"one of {', '.join(keys[:_SHOWN])}{more}"
    return Fault("history", 0, "batch", repr(typed), wanted)
