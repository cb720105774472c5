"""The rule base looked up: one card in words, one card as it stands, and lists."""

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import Any

from diagnose.answers import CardAnswer, CardLine, CardList, Passage, SourceLine
from diagnose.consult.card_cautions import cautions_of_card
from diagnose.errors import Fault, UnusableInput
from diagnose.flavour import DescriptorCard
from diagnose.knowledge import (
    Cause,
    Check,
    Compound,
    RuleBase,
    Source,
    Term,
    near_causes,
    paths_between,
    retired_sides,
)
from diagnose.shipped import shipped

LISTED = (
    "causes",
    "compounds",
    "descriptors",
    "measures",
    "circumstances",
    "checks",
    "yeasts",
    "styles",
    "cautions",
    "sources",
    "constants",
    "terms",
)
_NEAR = 4
# How alike an id is that differs by a slip, and one that may be meant. Judgement.
_A_SLIP, _LEAST_ALIKE = 0.8, 0.6
# Where several cards share an id, the one a brewer most likely asks for comes first.
_FIRST = ("causes", "compounds", "descriptors", "checks", "measures", "circumstances", "sources")


def explain_card(rules: RuleBase, card_id: str) -> CardAnswer:
    """One card in words, with the cautions it calls for.

    Raises:
        UnusableInput: no card is called that, or the id is retired.
    """
    kind, card = _found(rules, card_id)
    cautions = cautions_of_card(rules, card_id, getattr(card, "cautions", ()))
    return _in_words(rules, (kind, card_id, card)).model_copy(update={"cautions": cautions})


def _in_words(rules: RuleBase, found: tuple[str, str, object]) -> CardAnswer:
    kind, card_id, card = found
    if kind in _IN_WORDS:
        return _IN_WORDS[kind](rules, card)
    if isinstance(card, Source):
        passage = Passage(heading="Seen", lines=(card.seen or "not seen", card.note))
        return _answer(rules, (kind, card_id, card.id, card.citation), (passage,), (card.id,))
    says = str(getattr(card, "says", "") or getattr(card, "asks", "") or getattr(card, "text", ""))
    name = str(getattr(card, "name", card_id))
    source = str(getattr(card, "source", ""))
    return _answer(rules, (kind, card_id, name, says), (), (source,) if source else ())


def _found(rules: RuleBase, card_id: str) -> tuple[str, object]:
    found = dict(rules.find(card_id))
    retired = retired_sides(rules, card_id)
    if not found and retired:
        raise UnusableInput(Fault("rules", 0, "", *retired))
    if not found:
        every = sorted({name for _, name in rules.places})
        begun = [name for name in every if card_id and name.startswith(card_id)]
        slips = get_close_matches(card_id, every, n=3, cutoff=_A_SLIP)
        alike = get_close_matches(card_id, every, n=3, cutoff=_LEAST_ALIKE)
        near = [*begun, *slips, *near_causes(rules, card_id), *alike]
        near = list(dict.fromkeys(near))[:_NEAR]
        hint = f"one of {', '.join(near)}, perhaps" if near else "an id from 'faultwort rules list'"
        raise UnusableInput(Fault("rules", 0, "", repr(card_id), hint))
    kind = next((kind for kind in _FIRST if kind in found), next(iter(found)))
    return kind, found[kind]


def _answer(
    rules: RuleBase,
    head: tuple[str, str, str, str],
    passages: tuple[Passage, ...],
    sources: tuple[str, ...],
    paths: tuple[tuple[str, str, str], ...] = (),
) -> CardAnswer:
    kind, card_id, name, says = head
    cited = [rules.sources[key] for key in dict.fromkeys(sources) if key in rules.sources]
    return CardAnswer(
        id=card_id,
        kind=kind,
        name=name,
        says=says,
        passages=tuple(passage for passage in passages if any(passage.lines)),
        paths=paths,
        sources=tuple(SourceLine(id=s.id, kind=s.kind, citation=s.citation) for s in cited),
    )


def _cause(rules: RuleBase, card: Cause) -> CardAnswer:
    makes = [c for c in rules.compounds.values() if card.id in c.made_by]
    passages = (
        Passage(
            heading="How often",
            lines=(
                f"in about {card.base_rate.value:.0%} of home batches in which it is possible "
                f"({card.base_rate.low:.0%} to {card.base_rate.high:.0%}, {card.base_rate.basis})",
            ),
        ),
        Passage(
            heading="Makes",
            lines=tuple(f"{c.name} (in {c.made_by[card.id].value:.0%} of cases)" for c in makes),
        ),
        Passage(
            heading="What the record can say",
            lines=tuple(f"{rules.measures[i.measure].name}: {i.because}" for i in card.indicators),
        ),
        Passage(heading="With this beer, now", lines=card.advice()),
        Passage(heading="Next time", lines=card.next_time),
        Passage(heading="Wrong to blame", lines=(card.wrong_to_blame,)),
        Passage(
            heading="Confused with",
            lines=tuple(rules.causes[other].name for other in card.confused_with),
        ),
    )
    words = sorted({word for compound in makes for word in compound.gives})
    paths = [path for word in words for path in paths_between(rules, card.id, word)]
    sources = (card.base_rate.source, *card.sources, *(i.source for i in card.indicators))
    return _answer(
        rules, ("causes", card.id, card.name, card.says), passages, sources, tuple(paths)
    )


def _compound(rules: RuleBase, card: Compound) -> CardAnswer:
    noticed = card.noticed_from
    strongest = sorted(card.made_by.items(), key=lambda one: (-one[1].value, one[0]))
    given = sorted(card.gives.items(), key=lambda one: (-one[1].value, one[0]))
    passages = (
        Passage(
            heading="Noticed from",
            lines=(
                f"{noticed.value:g} {noticed.unit} ({noticed.low:g} to {noticed.high:g}, "
                f"{noticed.basis})",
            )
            if noticed
            else ("no threshold found",),
        ),
        Passage(heading="With age", lines=(card.trend,)),
        Passage(
            heading="Made by",
            lines=tuple(f"{rules.causes[key].name} ({n.value:.0%})" for key, n in strongest),
        ),
        Passage(
            heading="Tastes of",
            lines=tuple(f"{rules.descriptors[key].name} ({n.value:.0%})" for key, n in given),
        ),
    )
    sources = (noticed.source,) if noticed else ()
    return _answer(rules, ("compounds", card.id, card.name, card.says), passages, sources)


def _descriptor(rules: RuleBase, card: DescriptorCard) -> CardAnswer:
    givers = [c for c in rules.compounds.values() if card.id in c.gives]
    givers.sort(key=lambda c: (-c.gives[card.id].value, c.id))
    passages = (
        Passage(heading="People also say", lines=(", ".join(card.phrasings[:12]),)),
        Passage(
            heading="Carried by",
            lines=tuple(f"{c.name} ({c.gives[card.id].value:.0%})" for c in givers),
        ),
        Passage(
            heading="Easily confused",
            lines=tuple(f"{rules.descriptors[c.id].name}: {c.trick}" for c in card.confused_with),
        ),
    )
    return _answer(rules, ("descriptors", card.id, card.name, card.says), passages, ())


def _check(rules: RuleBase, card: Check) -> CardAnswer:
    passages = (
        Passage(heading=f"Takes {card.minutes:.0f} minutes and", lines=card.needs),
        Passage(heading="How", lines=card.how),
        Passage(heading="Reading it", lines=tuple(result.says for result in card.results)),
        Passage(heading="What it cannot show", lines=(card.cannot_show,)),
    )
    sources = (*card.sources, *(speaks.source for speaks in card.speaks_for))
    return _answer(rules, ("checks", card.id, card.name, card.asks), passages, sources)


def _term(rules: RuleBase, card: Term) -> CardAnswer:
    words = tuple(rules.descriptors[key].name for key in card.descriptors)
    says = f"Number {card.id} of the 1979 flavour terminology ({card.code_status})"
    passages = (
        Passage(heading="Read as", lines=words),
        Passage(heading="Remark", lines=(card.reason,)),
    )
    return _answer(rules, ("terms", card.id, card.name, says), passages, (card.source, "term1979"))


_IN_WORDS: Mapping[str, Callable[[RuleBase, Any], CardAnswer]] = {
    "causes": _cause,
    "compounds": _compound,
    "descriptors": _descriptor,
    "checks": _check,
    "terms": _term,
}


def card_sheet(rules: RuleBase, card_id: str) -> dict[str, str]:
    """One card as it stands in its file: the file's name and its text."""
    kind, _ = _found(rules, card_id)
    place = rules.places[kind, card_id]
    path = shipped("rules").parent / place.document.name
    text = path.read_text(encoding="utf-8")
    if place.path:
        start = place.document.line(place.path)
        following = [line for line in place.document.lines.values() if line > start]
        index = place.path[0]
        ends = [
            line
            for key, line in place.document.lines.items()
            if len(key) == 1
            and isinstance(key[0], int)
            and isinstance(index, int)
            and key[0] > index
        ]
        stop = min(ends) if ends and following else None
        text = "\n".join(text.splitlines()[start - 1 : stop - 1 if stop else None]) + "\n"
    return {"id": card_id, "kind": kind, "file": place.document.name, "text": text}


def list_cards(rules: RuleBase, kind: str | None) -> CardList:
    """How many cards of each kind there are, or the cards of one kind.

    Raises:
        UnusableInput: no such kind.
    """
    counts = {name: len(getattr(rules, name)) for name in LISTED}
    if kind is None:
        return CardList(version=rules.version, counts=counts)
    if kind not in LISTED:
        raise UnusableInput(Fault("rules list", 0, "", repr(kind), f"one of {', '.join(LISTED)}"))
    cards = getattr(rules, kind).values()
    lines = tuple(CardLine(id=card.id, name=str(getattr(card, "name", ""))) for card in cards)
    return CardList(version=rules.version, counts={kind: counts[kind]}, cards=lines)
