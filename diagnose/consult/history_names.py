"""A history without the names of the people in it, for showing to a club.

Names go before anything is worked out from what was written, so that no sentence holds one. Each
person keeps one number throughout: two brewers, or two vessels named after them, stay two.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

from diagnose.history.brews import Brew
from diagnose.history.listing import BatchLine
from diagnose.history.opening import Store
from diagnose.history.people import people_in
from diagnose.history.showing import BatchShown
from diagnose.history.writing_down import slug

Clean = Callable[[str], str]


def as_written(words: str) -> str:
    """The words as they are, for those who may see the names."""
    return words


def names_left_out(store: Store) -> Clean:
    """What puts "person 1" in the place of a name, wherever it stands in a brewer's own words.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    return numbered_people(people_in(store))


def numbered_people(people: Sequence[str]) -> Clean:
    """What puts a number in the place of each of these names.

    A name is known in full, as a part of a key ("wren-marsh"), and by each of its capitalised
    parts; where two people share a part, it is the first one's.
    """
    called: dict[str, str] = {}
    for number, name in enumerate(people, start=1):
        parts = [part for part in name.split() if part[:1].isupper()]
        for form in (name, slug(name), *parts):
            called.setdefault(form.casefold(), f"person {number}")
    if not called:
        return as_written
    longest_first = sorted(called, key=lambda form: (-len(form), form))
    # An underscore parts words in file names, which \b does not see.
    pattern = re.compile(
        rf"(?<![^\W_])(?:{'|'.join(map(re.escape, longest_first))})(?![^\W_])", re.IGNORECASE
    )
    return lambda words: pattern.sub(lambda found: called[found[0].casefold()], words)


def brew_shown(brew: Brew, clean: Clean) -> Brew:
    """A batch with what was typed about it as it may be shown."""
    if clean is as_written:
        return brew
    return replace(
        brew,
        key=clean(brew.key),
        name=clean(brew.name),
        brewer=clean(brew.brewer or "") or None,
        factors={key: tuple(map(clean, words)) for key, words in brew.factors.items()},
        events=tuple(replace(one, text=clean(one.text)) for one in brew.events),
        tastings=tuple(
            replace(one, who=clean(one.who or "") or None, words=clean(one.words))
            for one in brew.tastings
        ),
    )


def line_shown(line: BatchLine, clean: Clean) -> BatchLine:
    """A batch of the list as it may be shown."""
    return line._replace(
        key=clean(line.key),
        name=clean(line.name),
        style=clean(line.style or "") or None,
        brewer=clean(line.brewer or "") or None,
    )


def batch_shown(shown: BatchShown, clean: Clean) -> BatchShown:
    """A batch in full as it may be shown."""
    if clean is as_written:
        return shown
    cleaned: BatchShown = _cleaned(shown, clean)
    return cleaned


def _cleaned(part: Any, clean: Clean) -> Any:
    """The same with every text in it cleaned; names of fields and keys stay."""
    cleaned = part
    if isinstance(part, str):
        cleaned = clean(part)
    elif is_dataclass(part) and not isinstance(part, type):
        each = {one.name: _cleaned(getattr(part, one.name), clean) for one in fields(part)}
        cleaned = replace(part, **each)
    elif isinstance(part, Mapping):
        cleaned = {key: _cleaned(value, clean) for key, value in part.items()}
    elif isinstance(part, tuple | list):
        cleaned = type(part)(_cleaned(one, clean) for one in part)
    return cleaned
