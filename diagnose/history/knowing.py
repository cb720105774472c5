"""Which batch of the store a record is, without writing anything."""

from diagnose.batch import Batch
from diagnose.history.keeping import batch_for
from diagnose.history.opening import Store
from diagnose.history.remembering import filing_in_file
from diagnose.knowledge import RuleBase


def key_of(store: Store, rules: RuleBase, batch: Batch) -> str | None:
    """The key under which a record is in the store; None where it is not there.

    Raises:
        UnusableInput: the record or its probe log cannot be read again.
        StoreUnusable: the store cannot be read.
    """
    if batch.kept_as is not None:
        return batch.kept_as
    filing = filing_in_file(rules, batch)
    if filing is None:
        return None
    with store.reading() as connection:
        found = batch_for(connection, filing)
    return found.key if found is not None else None
