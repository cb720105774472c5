"""What `history list` and `history show` say of instruments that were off and of cases."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.history.opening import Store
    from diagnose.history.showing import BatchShown


def offered(store: "Store") -> tuple[str, ...]:
    """A sentence for every instrument that left batches in doubt."""
    from sqlalchemy import select

    from diagnose.history.tables import instrument_checks

    with store.reading() as connection:
        checked = connection.execute(select(instrument_checks.c.id).limit(1)).first()
    # A list waits for nothing more where no instrument was ever checked.
    if checked is None:
        return ()
    from diagnose.consult.history_correcting import offers

    return offers(store)


def print_offers(offers: tuple[str, ...]) -> None:
    """The sentences below a list."""
    if offers:
        from diagnose.report import terminal
        from diagnose.report.strips import hanging

        for sentence in offers:
            hanging(terminal(), "!", sentence, indent=0)


def remarks_on(store: "Store", shown: "BatchShown") -> tuple[str, ...]:
    """How the cases of a batch stand, and whether what was read of it may be wrong."""
    said: tuple[str, ...] = ()
    if any(note.kind in ("verdicts", "splits") for note in shown.notes):
        from diagnose.cli.loading import shipped_rules
        from diagnose.consult.history_learning import case_lines

        said = case_lines(shipped_rules(), store, shown.key)
    from diagnose.consult.history_correcting import offers_for

    return (*said, *offers_for(store, shown.key))
