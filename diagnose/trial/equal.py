"""What has to be the same in both arms: the other causes of the same compounds, and the rest."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.knowledge import RuleBase
from diagnose.knowledge.causes import SplitHint
from diagnose.trial.fault import SuspectedFault
from diagnose.trial.plan import Equal
from diagnose.trial.stages import acts_before

# A rival that reaches the fault less often than this need not be watched. Judgement.
_LEAST_REACH = 0.15
_SAME_FLAVOUR = "gives the same flavour by another way"
# A factor of one of these kinds takes whatever else is of the kind with it, so far as they overlap.
_KINDS = (
    re.compile(r"temperature|\d C\b|\bdegrees\b|\bwarm\b"),
    re.compile(r"\b(days?|weeks?|hours?|months?)\b"),
)
_EMPTY_WORDS = frozenset(
    ("a", "after", "at", "before", "by", "first", "for", "from", "how", "in", "is", "of")
) | {"old", "on", "or", "the", "to"}


@dataclass(frozen=True)
class Equals:
    """What must not differ, and what cannot be wholly equal because the factor takes it along."""

    equal: tuple[Equal, ...]
    tied: tuple[Equal, ...]


def equal_in_all_arms(
    rules: RuleBase, fault: SuspectedFault, hints: Mapping[str, SplitHint]
) -> Equals:
    """Everything that must not differ, with the reason; the factor itself is not among it.

    Args:
        rules: its links from causes to compounds are the causal graph.
        fault: the fault and its compounds.
        hints: the splits, by the causes that are put to them.
    """
    listed = (*_rivals(rules, fault, hints), *(one for one, _ in _ALWAYS))
    tied = tuple(one for one in listed if not one.shared and _goes_with(one.what, hints))
    return Equals(tuple(one for one in listed if one not in tied), tied)


def _goes_with(what: str, hints: Mapping[str, SplitHint]) -> bool:
    """Whether something differs, wholly or in part, because the factor does."""
    always = next((factors for one, factors in _ALWAYS if one.what == what), None)
    if always is not None:
        return any(re.search(always, hint.factor) for hint in hints.values())
    return any(_same_thing(what, hint) or _same_kind(what, hint) for hint in hints.values())


def _same_thing(what: str, hint: SplitHint) -> bool:
    one, other = _words(what), _words(hint.factor)
    return bool(one and other) and (one <= other or other <= one)


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]+", text.casefold())) - _EMPTY_WORDS


def _same_kind(what: str, hint: SplitHint) -> bool:
    told = " ".join((hint.factor, *hint.arms))
    return any(kind.search(what) and kind.search(told) for kind in _KINDS)


def _rivals(
    rules: RuleBase, fault: SuspectedFault, hints: Mapping[str, SplitHint]
) -> tuple[Equal, ...]:
    own = {name for name in fault.compounds if set(hints) & set(rules.compounds[name].made_by)}
    found = []
    for rival, made in rivals_of(rules, fault.compounds).items():
        if rival in hints or max(made.values()) < _LEAST_REACH:
            continue
        card = rules.causes[rival]
        shared = all(acts_before(card.stage, hint.stage) for hint in hints.values())
        what = card.split.factor if card.split else card.name
        compound = rules.compounds[max(made, key=lambda one: (made[one], one))]
        makes = f"makes {compound.name.lower()} too" if compound.id in own else _SAME_FLAVOUR
        why = f"{card.name[:1].lower()}{card.name[1:]} {makes}"
        weight = fault.share(rival) + 0.02 * max(made.values())
        found.append((shared, -weight, Equal(what=what, why=why, shared=shared)))
    ordered = sorted(found, key=lambda one: (one[0], one[1], one[2].what))
    return tuple(line for _, _, line in ordered)


def rivals_of(rules: RuleBase, compounds: tuple[str, ...]) -> dict[str, dict[str, float]]:
    """Every cause of these compounds, with the strength of its link into each."""
    found: dict[str, dict[str, float]] = {}
    for name in compounds:
        for cause, number in rules.compounds[name].made_by.items():
            found.setdefault(cause, {})[name] = number.value
    return found


# What always has to be equal, and which factors take it along.
_ALWAYS = (
    (
        Equal(what="vessels: same model, same age, same cleaning", why="no two ever match quite"),
        r"vessel|fermenter|steel|barrel|keg",
    ),
    (Equal(what="volume, within 2 %", why="small vessels cool, warm and stale faster"), r"volume"),
    (
        Equal(
            what="headspace, at most a quarter of the vessel and equal within 2 points",
            why="air over the beer swamps everything else",
        ),
        r"headspace|air over",
    ),
    (
        Equal(
            what="gravity, within 0.0005 at the start and 0.001 at the end", why="body hides faults"
        ),
        r"mash|strike|sugar|sweetener|enzyme|boil|crystal|mill|last third|feed|amount of yeast",
    ),
    (Equal(what="pH, within 0.05", why="a tenth of a pH can be tasted"), r"pH|acid|alkalinity"),
    (
        Equal(what="carbonation and fill height", why="gas lifts aromas out of the glass"),
        r"fill height|prim(ed|ing)|gas in|sugar is dosed|closure|keg",
    ),
    (
        Equal(what="age: package both on one day, that of the later arm", why="age is a flavour"),
        r"^age at",
    ),
    (
        Equal(what="every opening, transfer and sample", why="what is done to one is done to both"),
        r"moved|racking|hops go in",
    ),
    (
        Equal(what="temperature in the glass, within 1 C", why="warm beer shows more"),
        r"temperature in the glass",
    ),
    (
        Equal(
            what="colour and haze, or hide them in opaque cups", why="or the panel tests its eyes"
        ),
        r"roasted|crystal",
    ),
)
