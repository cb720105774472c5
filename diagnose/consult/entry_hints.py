"""The entries that a phrase may have meant, ready to be typed."""

from difflib import get_close_matches

from diagnose.consult.entry_names import EntryName, entry_names, spoken_words

SHOWN = 3
_LEAST_ALIKE = 0.6
_UNIT_LACKS = "the unit beside it"


def hint_of(typed: str) -> str:
    """What is wanted in place of a phrase, with the nearest entries of the record."""
    if len(_parts(typed)) > 1:
        return "one thing at a time; give each its own --suppose"
    near = " or ".join((_entries_meant(typed) or _written_alike(typed))[:SHOWN])
    wanted = "a flavour word, or an entry of the record with its value"
    return f"{wanted}, perhaps {near}" if near else wanted


def _parts(typed: str) -> list[str]:
    """The phrases joined by commas or "and" that have a figure of their own."""
    parts = typed.replace(" and ", ", ").split(", ")
    return [part for part in parts if _figure(part)]


def _entries_meant(typed: str) -> list[str]:
    """Entries that share words with the phrase and that its figure fits, as it is or nearly."""
    spoken, figure = set(spoken_words(typed)), _figure(typed)
    shared = {name: len(name.words & spoken) for name in entry_names()}
    most = max(shared.values())
    near = [name for name, count in shared.items() if count == most and most and not name.is_text]
    near.sort(key=lambda name: not name.is_told_first)
    if not figure:
        return [name.dotted for name in near]
    return [ready for name in near if (ready := _ready(name, figure))]


def _ready(name: EntryName, figure: str) -> str:
    """The entry with its value; asks for the unit where that is all that lacks."""
    why = name.refuses(figure)
    if not why:
        return f"'{name.dotted}: {figure}'"
    lacks = name.is_told_first and _UNIT_LACKS in why
    return f"'{name.dotted}: {figure}' with its unit" if lacks else ""


def _figure(typed: str) -> str:
    """What is typed from the first figure on."""
    words = typed.split()
    first = next((i for i, word in enumerate(words) if any(map(str.isdigit, word))), len(words))
    return " ".join(words[first:])


def _written_alike(typed: str) -> list[str]:
    names = [name.dotted for name in entry_names()]
    written = typed.replace("=", ":").split(":")[0].strip()
    return get_close_matches(written, names, SHOWN, _LEAST_ALIKE)
