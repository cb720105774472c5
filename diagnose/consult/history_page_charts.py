"""Which charts and contrasts the page of a history shows."""

from collections import Counter
from collections.abc import Iterator, Sequence, Set

from diagnose.answers.history_looking import Contrast, Trend
from diagnose.answers.history_page import Charted
from diagnose.consult.history_looking import contrast
from diagnose.consult.history_trend import Events, trend_of_flaw, trend_of_measure
from diagnose.history.brews import Brew
from diagnose.history.flaws import flaw_ids
from diagnose.history.learning_heard import heard_in
from diagnose.knowledge import RuleBase

Flaw = tuple[str, Set[str]]
# What style and yeast bring by themselves is named by tasters too; no chart can part the two.
ANY_FLAW = "any flavour named, the style's own too"
# Measures that are charted where none was asked for, each known of so many batches: fewer give no
# limits. Judgement.
MEASURES, _LEAST_KNOWN = 3, 8
_FEWEST = 2


def flaws_to_show(rules: RuleBase, brews: Sequence[Brew], asked: Sequence[str]) -> list[Flaw]:
    """The flaws asked for, else the one that was told of in most batches, if any was.

    Raises:
        UnusableInput: no flavour was understood.
    """
    if asked:
        return [(words, flaw_ids(words, rules.lexicon)) for words in asked]
    count = Counter(word for brew in brews for word in brew.reported if word in rules.descriptors)
    if not count:
        return []
    most = min(count, key=lambda word: (-count[word], word))
    return [(rules.descriptors[most].name, frozenset({most}))]


def contrasts_shown(
    rules: RuleBase, brews: Sequence[Brew], flaws: Sequence[Flaw], events: Events
) -> tuple[Contrast, ...]:
    """What separates flawed from clean batches, for each flaw of which there are both."""
    told = list(events)
    found = (contrast(rules, brews, flaw, told) for flaw in flaws)
    return tuple(one for one in found if one.flawed and one.clean)


def charts_shown(
    rules: RuleBase,
    brews: Sequence[Brew],
    asked: tuple[Sequence[Flaw], Sequence[str]],
    contrasts: Sequence[Contrast],
    events: Events,
) -> tuple[Charted, ...]:
    """The charts: of any flaw, of each flaw, and of the measures.

    Args:
        rules: the rule base.
        brews: the batches, in brewing order.
        asked: the flaws, and the measures that were asked for by id.
        contrasts: where no measure was asked for, those that differ most come first.
        events: (day, words) of what later batches may feel.

    Raises:
        UnusableInput: a measure that was asked for cannot be charted.
    """
    flaws, measures = asked
    told = list(events)
    drawn = [*_flaw_trends(rules, brews, flaws, told)]
    keys = measures or _measures_to_show(rules, brews, contrasts)
    drawn += [trend_of_measure(rules, brews, key, told) for key in keys]
    return tuple(Charted(trend=one, difference=one.difference) for one in drawn)


def _flaw_trends(
    rules: RuleBase, brews: Sequence[Brew], flaws: Sequence[Flaw], events: Events
) -> Iterator[Trend]:
    dated = [one for one in heard_in(rules.lexicon, brews) if one.brewed_on and one.tastings]
    if len(dated) < _FEWEST:
        return
    everything = frozenset(rules.descriptors)
    flawed = {one.key for one in dated if one.reported & everything}
    yield trend_of_flaw(rules, brews, (ANY_FLAW, everything), events)
    for words, ids in flaws:
        # One flaw that stands behind every complaint would be the same chart again.
        if {one.key for one in dated if one.reported & ids} != flawed:
            yield trend_of_flaw(rules, brews, (words, ids), events)


def _measures_to_show(
    rules: RuleBase, brews: Sequence[Brew], contrasts: Sequence[Contrast]
) -> list[str]:
    """Those that differ most between flawed and clean batches, then those known most often."""
    values: dict[str, list[float]] = {}
    for brew in brews:
        for key, value in brew.measures.items():
            if brew.brewed_on and not isinstance(value, str) and _is_charted(rules, key):
                values.setdefault(key, []).append(value[1])
    steady = {key for key, some in values.items() if len(some) < _LEAST_KNOWN or _same(some)}
    place = {
        suspect.name: number
        for number, suspect in enumerate(one for c in contrasts for one in c.suspects)
    }
    last = len(place)
    order = sorted(
        values.keys() - steady,
        key=lambda key: (place.get(rules.measures[key].name, last), -len(values[key]), key),
    )
    return order[:MEASURES]


def _is_charted(rules: RuleBase, key: str) -> bool:
    return key in rules.measures and not rules.measures[key].classes


def _same(values: Sequence[float]) -> bool:
    return max(values) - min(values) <= 1e-9
