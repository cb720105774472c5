"""What is typed at a question, read as the entry that it stands for."""

import re
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches

from diagnose.batch import Batch, NotLogged
from diagnose.consult.guided_asking import Asking
from diagnose.consult.guided_dates import WANTED, day_written
from diagnose.consult.guided_grist import grist_lines, is_doubtful_extract, without_kind
from diagnose.consult.guided_quantities import habits_of, said_in_full, ways_meant
from diagnose.consult.guided_slots import Slot
from diagnose.consult.guided_text import Value
from diagnose.documents import Path
from diagnose.errors import UnreadableQuantity
from diagnose.flavour import understand
from diagnose.knowledge import RuleBase
from diagnose.units.refusal import quoted

MOST_OPENINGS = 12
_NOT_KNOWN = re.compile(
    r"""\??|unknown|not\ (?:known|sure|certain|measured|noted|recorded)|unsure|no\ (?:idea|clue)
    |dunno|idk|n/?a|forgot(?:ten)?
    |(?:do\ not|don'?t|can(?:not|'?t)|could(?:\ not|n'?t))\ (?:know|say|tell|remember|recall)""",
    re.VERBOSE,
)
_I_AM = re.compile(r"(?:i|we)(?:'?(?:m|re)|\ am|\ are|\ have)?\ ")
_YES_AND_NO = {
    "y": "yes",
    "n": "no",
    "yeah": "yes",
    "yep": "yes",
    "nope": "no",
    "slightly": "faint",
}
# These are answers of their own and never the beginning of another ("no" of "noticed later").
_WHOLE = ("yes", "no", "not", "none", "never", "nothing")
# What a keyboard sends and no record may hold.
_NOT_TEXT = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufeff]")


class NotRead(Exception):
    """Why an answer cannot be read, in a sentence; `offers` are what may have been meant."""

    def __init__(self, text: str, *offers: str) -> None:
        self.text, self.offers = text, offers
        super().__init__(text)


@dataclass(frozen=True)
class Entry:
    """An answer as it goes into the record; `ways` are others of the same text, if any."""

    path: Path
    value: Value
    said: str = ""
    ways: tuple[str, ...] = ()


@dataclass(frozen=True)
class Desk:
    """What an answer is read with: the rules, the record so far, and today."""

    rules: RuleBase
    batch: Batch
    today: date


def cleaned(typed: str) -> str:
    """The typed line without signs that steer a terminal, and without blanks around it."""
    return " ".join(_NOT_TEXT.sub(" ", typed).split())


def says_not_known(line: str) -> bool:
    """Whether a cleaned line says that the answer is not known: "?", "not sure", "no idea"."""
    plain = line.casefold().replace("\u2019", "'").rstrip(" .!")
    return bool(_NOT_KNOWN.fullmatch(_I_AM.sub("", plain, count=1)))


def read_answer(desk: Desk, asking: Asking, typed: str) -> Entry:
    """The entry that an answer stands for.

    Raises:
        NotRead: it cannot be read, or could be meant in several ways.
    """
    if asking.word is not None:
        state, said = _chosen(asking, typed)
        return replace(_word(desk, asking.word, state), said=said)
    if asking.slot is None:
        return Entry(asking.path, *_chosen(asking, typed))
    return _slot(desk, (asking, asking.slot), typed)


def _chosen(asking: Asking, typed: str) -> tuple[str, str]:
    """The choice that is meant, by its number or words; what a part of them was taken for."""
    values = [value for value, _ in asking.choices]
    folded = _folded(_YES_AND_NO.get(typed.casefold(), typed))
    if folded.isdigit() and 1 <= int(folded) <= len(values):
        return values[int(folded) - 1], ""
    said = [(value, {_folded(value), _folded(label)}) for value, label in asking.choices]
    for fits in (str.__eq__, _begins, _is_within):
        found = [value for value, texts in said if any(fits(text, folded) for text in texts)]
        if len(found) == 1:
            label = dict(asking.choices)[found[0]]
            return found[0], "" if fits is str.__eq__ else f"Taken as: {label}."
    among = "more than one" if any(_is_within(t, folded) for _, ts in said for t in ts) else "none"
    wanted = f"a number from 1 to {len(values)}, or the start of one"
    raise NotRead(f"{quoted(typed)} is {among} of the answers; it takes {wanted}.")


def _folded(text: str) -> str:
    return " ".join(re.sub(r"[-_,()]", " ", text.casefold()).split())


def _begins(text: str, part: str) -> bool:
    return bool(part) and f"{text} ".startswith(_as_asked(part))


def _is_within(text: str, part: str) -> bool:
    return bool(part) and f" {_as_asked(part)}" in f" {text} "


def _as_asked(part: str) -> str:
    """A part of an answer: the start of a word, or the whole of one that says yes or no."""
    return f"{part} " if part in _WHOLE else part


def _slot(desk: Desk, asked: tuple[Asking, Slot], typed: str) -> Entry:
    asking, slot = asked
    if slot.kind in ("word", "hops"):
        chosen, said = _chosen(asking, typed)
        return Entry(asking.path, [{"use": chosen}] if slot.kind == "hops" else chosen, said)
    if slot.kind in ("quantity", "reading"):
        return _quantity(desk, asked, typed)
    if slot.kind in ("style", "yeast"):
        return _name(desk, asked, typed)
    if slot.kind == "date":
        return _date(desk, asking, typed)
    others = {"grist": _grist, "count": _openings}
    return others[slot.kind](asking, typed) if slot.kind in others else Entry(asking.path, typed)


def _quantity(desk: Desk, asked: tuple[Asking, Slot], typed: str) -> Entry:
    (asking, slot), field = asked, asked[1].field
    if field is None:
        return Entry(asking.path, typed)
    try:
        first, *others = ways_meant(typed, field, slot.bare, habits_of(desk.batch.record))
    except UnreadableQuantity as refused:
        raise NotRead(f"Cannot read {refused.found}; it takes {refused.wanted}.") from None
    said = f"Taken as {said_in_full(first, field)}." if first != typed else ""
    value: Value = first
    if slot.kind == "reading":
        value = [{"when": desk.today.isoformat(), "gravity": first}]
    return Entry(asking.path, value, said, tuple(others))


def _date(desk: Desk, asking: Asking, typed: str) -> Entry:
    written = day_written(typed, desk.today)
    if written is None:
        raise NotRead(f"{quoted(typed)} is no day that can be read; it takes {WANTED}.")
    return Entry(asking.path, written, f"Taken as {written}." if written != typed else "")


def _grist(asking: Asking, typed: str) -> Entry:
    lines = grist_lines(typed)
    if not lines:
        raise NotRead("No malt, extract or sugar is named in that.")
    if any(is_doubtful_extract(line) for line in lines):
        raise NotRead("Was the extract liquid or dry? Type the list again with 'liquid extract'.")
    odd = without_kind(lines)
    said = f"No kind of malt or sugar known for: {', '.join(odd)}; kept by name." if odd else ""
    return Entry(asking.path, [dict(line) for line in lines], said)


def _openings(asking: Asking, typed: str) -> Entry:
    words = {"no": 0, "none": 0, "never": 0, "once": 1, "one": 1, "twice": 2, "two": 2}
    text = typed.casefold()
    count = words.get(text, int(text) if text.isdecimal() else -1)
    if not 0 <= count <= MOST_OPENINGS:
        raise NotRead(f"{quoted(typed)} is no count; it takes a number from 0 to {MOST_OPENINGS}.")
    if count == 0:
        return Entry(asking.path, [{"what": "other", "note": "never opened without gas"}])
    return Entry(asking.path, [{"what": "opened", "purged": "no"} for _ in range(count)])


def _name(desk: Desk, asked: tuple[Asking, Slot], typed: str) -> Entry:
    (asking, slot), rules = asked, desk.rules
    called = rules.style_called if slot.kind == "style" else rules.yeast_called
    card = called(typed) or called(f"{typed} yeast" if slot.kind == "yeast" else f"{typed} ale")
    if card is not None:
        written = typed if called(typed) else card.id.replace("_", " ")
        if called(written) is None:
            written = card.id
        told = typed.casefold() in card.name.casefold()
        return Entry(asking.path, written, "" if told else f"Taken as {card.name}.")
    cards = rules.styles if slot.kind == "style" else rules.yeasts
    names = {name.casefold(): name for one in cards.values() for name in (one.name, *one.aliases)}
    owners = {name: one.id for one in cards.values() for name in (one.name, *one.aliases)}
    near = get_close_matches(typed.casefold(), list(names), n=4, cutoff=0.5)
    near += [name for name in names if typed.casefold() in name and name not in near]
    kind = "style" if slot.kind == "style" else "kind of yeast"
    if near:
        # A card is offered once, by the nearest of its names.
        nearest = {owners[names[one]]: names[one] for one in reversed(near)}
        offers = list(nearest.values())[::-1]
        raise NotRead(f"No {kind} is called {quoted(typed)} here. Is it one of these?", *offers[:4])
    listed = ", ".join(one.name for one in cards.values())
    raise NotRead(f"No {kind} is called {quoted(typed)} here. Known are: {listed}.")


def _word(desk: Desk, descriptor: str, state: str) -> Entry:
    """A flavour found or not found on asking, as one more tasting in words that say just that."""
    said = (
        f"{ {'no': 'no ', 'faint': 'faint '}.get(state, '') }{plain_phrase(desk.rules, descriptor)}"
    )
    tastings = desk.batch.record.tastings
    names = {tasting.who for tasting in tastings if not isinstance(tasting.who, NotLogged)}
    # Words without a name beside those of one taster would be another taster's.
    who = {"who": str(names.pop())} if len(names) == 1 else {}
    return Entry(("tastings", len(tastings)), {**who, "words": said})


def plain_phrase(rules: RuleBase, descriptor: str) -> str:
    """Words that are read as this flavour alone, reported and denied alike."""
    card = rules.lexicon.cards[descriptor]
    for phrase in (card.name.casefold(), *card.phrasings):
        if all(_reads_as(rules, said, (descriptor, state)) for said, state in _both(phrase)):
            return phrase
    return card.phrasings[0]


def _both(phrase: str) -> tuple[tuple[str, str], ...]:
    return (phrase, "reported"), (f"no {phrase}", "absent"), (f"faint {phrase}", "reported")


def _reads_as(rules: RuleBase, said: str, wanted: tuple[str, str]) -> bool:
    one = understand(said, rules.lexicon)
    heard = [(h.descriptor, h.state) for h in one.heard if not h.alternatives]
    return (
        heard == [wanted] and len(one.heard) == 1 and not (one.not_understood or one.circumstances)
    )
