"""What `diagnose` asks of the history, and what it keeps there; only when told to."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.answers import Diagnosis
    from diagnose.answers.diagnosis import LearnedUse
    from diagnose.batch import Batch
    from diagnose.history.keeping import Kept
    from diagnose.knowledge import RuleBase


def rules_to_use(
    rules: "RuleBase", batch: "Batch", store: str | None, learned: bool | None
) -> tuple["RuleBase", "LearnedUse | None"]:
    """The rule base, moved by what the batches of a store taught where that is wanted.

    Args:
        rules: as they ship.
        batch: what is diagnosed.
        store: where, as typed; None for the brewer's own.
        learned: True and False as typed; None where neither was, and then a store that was named
            is asked.

    Raises:
        UnusableInput: there is no such store.
        StoreUnusable: the store cannot be read.
    """
    if learned is False or (learned is None and store is None):
        return rules, None
    from diagnose.cli.history_doing import opened
    from diagnose.consult.history_learning import use_learned
    from diagnose.history.knowing import key_of
    from diagnose.history.place import place_of

    place = place_of(store)
    # A store that `--remember` is about to make has taught nothing yet.
    if learned is None and place.file is not None and not place.file.exists():
        return rules, None
    with opened(store) as history:
        return use_learned(rules, history, key_of(history, rules, batch))


def with_learned(diagnosis: "Diagnosis", use: "LearnedUse | None") -> "Diagnosis":
    """The diagnosis with what it says of learning."""
    return diagnosis if use is None else diagnosis.model_copy(update={"learned": use})


def kept(
    rules: "RuleBase",
    batch: "Batch",
    told: tuple["Diagnosis", list[str]],
    store: str | None,
    *,
    quiet: bool,
) -> "Kept":
    """Keep the batch, its words and its diagnosis in the history, and say so unless quiet.

    Raises:
        StoreUnusable: the store cannot be written.
    """
    import typer

    from diagnose.cli.history_doing import now, opened
    from diagnose.history.remembering import remember

    diagnosis, tastes = told
    answer = diagnosis.model_dump(mode="json", by_alias=True)
    with opened(store, create=True) as history:
        done = remember(history, rules, batch, (answer, tastes), now())
    if not quiet:
        typer.echo(f"\nRemembered as {done.key}, version {done.number} ({done.outcome}).")
    return done
