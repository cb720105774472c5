"""Who is named in a store: brewers, tasters, and those who wrote something down."""

import json
from collections.abc import Iterator

from sqlalchemy import Connection, select

from diagnose.history.opening import Store
from diagnose.history.tables import NOTES, contents, panels


def people_in(store: Store) -> tuple[str, ...]:
    """Every name, once each, in the order in which they were first written down.

    Records of every version count, and notes that were withdrawn.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    with store.reading() as connection:
        found = dict.fromkeys((*_of_records(connection), *_of_notes(connection)))
    return tuple(name for name in found if name)


def _of_records(connection: Connection) -> Iterator[str]:
    query = select(contents.c.brewer, contents.c.tasted).order_by(contents.c.id)
    for brewer, tasted in connection.execute(query):
        yield brewer or ""
        for one in json.loads(tasted):
            yield one["who"] or ""


def _of_notes(connection: Connection) -> Iterator[str]:
    for table in NOTES.values():
        for who in connection.execute(select(table.c.who).order_by(table.c.id)).scalars():
            yield who or ""
    for body in connection.execute(select(panels.c.body).order_by(panels.c.id)).scalars():
        for result in json.loads(body).get("results", ()):
            yield result["taster"]
