"""Finding a batch by what the brewer types for it: its key, or a beginning that fits only one."""

from dataclasses import dataclass
from typing import Final

from sqlalchemy import Connection, func, select

from diagnose.errors import Fault, UnusableInput
from diagnose.history.tables import batches, versions

_SHOWN: Final = 8


@dataclass(frozen=True)
class Numbered:
    """A batch in the store: its row, its key and the number of its current version."""

    id: int
    key: str
    current: int


def numbered(connection: Connection, typed: str) -> Numbered:
    """The batch whose key is `typed`, else the only one whose key begins with it.

    Raises:
        UnusableInput: none does, or several do.
    """
    row = connection.execute(
        select(batches.c.id, batches.c.key).where(batches.c.key == typed)
    ).first()
    if row is None:
        near = select(batches.c.id, batches.c.key).where(
            batches.c.key.startswith(typed, autoescape=True)
        )
        found = list(connection.execute(near.order_by(batches.c.key).limit(_SHOWN + 1)))
        if len(found) != 1 or not typed:
            raise UnusableInput(_not_one(typed, [str(one.key) for one in found]))
        row = found[0]
    current = select(func.max(versions.c.number)).where(versions.c.batch_id == row.id)
    return Numbered(int(row.id), str(row.key), int(connection.execute(current).scalar() or 0))


def _not_one(typed: str, keys: list[str]) -> Fault:
    if not keys or not typed:
        wanted = "a batch that 'faultwort history list' shows"
    else:
        more = ", …" if len(keys) > _SHOWN else ""
        wanted = f"one of {', '.join(keys[:_SHOWN])}{more}"
    return Fault("history", 0, "batch", repr(typed), wanted)
