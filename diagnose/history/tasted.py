"""A tasting as the history keeps it: the words as typed, and the descriptors they were read as."""

from typing import Any

from diagnose.batch import BatchRecord, NotLogged, resolved
from diagnose.batch.cellar import Tasting
from diagnose.flavour import Lexicon, understand
from diagnose.units import Reading


def tastings_in(record: BatchRecord, lexicon: Lexicon) -> list[dict[str, Any]]:
    """The tastings of a record, each with what its words mean."""
    return [_tasting(record, one, lexicon) for one in record.tastings]


def read_words(words: str, lexicon: Lexicon) -> dict[str, Any]:
    """What a taster's words mean: descriptors reported with their intensity, and those denied.

    A descriptor both reported and denied counts as reported; one that only says that something
    is wrong ("off") is left out.
    """
    understood = understand(words, lexicon)
    telling = [one for one in understood.heard if one.descriptor not in lexicon.words.vague]
    reported = {one.descriptor: one.intensity for one in telling if one.state == "reported"}
    denied = {one.descriptor for one in telling if one.state == "absent"}
    return {
        "reported": reported,
        "absent": sorted(denied - set(reported)),
        "not_understood": list(understood.not_understood),
    }


def _tasting(record: BatchRecord, one: Tasting, lexicon: Lexicon) -> dict[str, Any]:
    when = resolved(record, one.when)
    words = _said(one.words) or ""
    return {
        "when": when.isoformat() if when is not None else None,
        "who": _said(one.who),
        "words": words,
        "at_c": one.at.value if isinstance(one.at, Reading) else None,
        "poured_from": _said(one.poured_from),
        **read_words(words, lexicon),
    }


def _said(entry: "str | NotLogged") -> str | None:
    return entry if isinstance(entry, str) else None
