"""The rule base without reading its files again while they stay the same."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from diagnose.documents import Document
from diagnose.knowledge.base import Place, RuleBase
from diagnose.shipped.kept import Work, kept_or_made

ROOMS = ("documents", "flavour", "knowledge")
Key = TypeVar("Key")


def compiled_rules(folder: Path, cache: Path | None) -> RuleBase:
    """The rule base in `folder`, from `cache` if it was kept there.

    Every card and the version are those of `load_rules`. A place knows the file and line of its
    card; the lines of the entries inside are for `load_rules`, which checks a rule base.

    Args:
        folder: the rules folder.
        cache: where to keep it; None keeps nothing.

    Raises:
        UnusableInput: every fault of every card, with file and line.
    """
    work = Work("rules", RuleBase, (folder,), ROOMS, lambda: _read(folder))
    return kept_or_made(work, cache)


def _read(folder: Path) -> RuleBase:
    # What reads the files is imported only when they have to be read.
    from diagnose.knowledge.loading import load_rules  # noqa: PLC0415

    rules = load_rules(folder)
    compiled = replace(
        rules, places=_bare(rules.places), retired_places=_bare(rules.retired_places)
    )
    # Slow to work out; laid where the cached property looks, it is kept with the cards.
    vars(compiled)["version"] = rules.version
    return compiled


def _bare(places: Mapping[Key, Place]) -> dict[Key, Place]:
    """The places without the text of their documents; cards of one list share one document."""
    documents: dict[str, Document] = {}
    bare = {}
    for key, place in places.items():
        name, lines = place.document.name, place.document.lines
        if name not in documents:
            cards = {path: line for path, line in lines.items() if len(path) <= 1}
            documents[name] = Document(name, None, cards)
        bare[key] = Place(documents[name], place.path)
    return bare
