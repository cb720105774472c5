"""A tasting of very many words, cut down to what can be weighed in full while somebody waits.

What is left out of the ranking still counts: between which chances every cause lies with all of
it is shown beside.
"""

from collections.abc import Sequence
from dataclasses import replace

from diagnose.answers.diagnosis import Bounds, Diagnosis, FaultGroup, Partly, RankedCause
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.words import understood_line
from diagnose.evidence.gathering import gather
from diagnose.inference.aside import cells_of, fits_within
from diagnose.inference.share_bounds import ShareBounds, share_bounds
from diagnose.knowledge import RuleBase

# What one scenario may cost of the hundred that a whole diagnosis takes, and of the few for
# bounds, in cells of a plan: some seconds each.
MOST_CELLS, MOST_BOUND_CELLS = 2**15, 2**21


def reachable(rules: RuleBase, consultation: Consultation) -> Consultation:
    """The same consultation where it can be weighed in full, else less some of its words.

    The words without which least hangs together go first, then the denied ones are taken back in
    the order in which they were said, as far as there is room.
    """
    if _fits(rules, consultation):
        return consultation
    denied = _words(consultation, "absent")
    kept = [word for word in _words(consultation, "reported") if word not in denied]
    while len(kept) > 1 and not _fits(rules, _with_words(consultation, kept)):
        dearest = min(kept, key=lambda word: _cells_without(rules, consultation, (kept, word)))
        kept.remove(dearest)
    for word in denied:
        if _fits(rules, _with_words(consultation, [*kept, word])):
            kept.append(word)
    return _with_words(consultation, kept)


def _words(consultation: Consultation, state: str) -> list[str]:
    heard = consultation.known.heard
    return list(dict.fromkeys(one.descriptor for one in heard if one.state == state))


def _with_words(consultation: Consultation, words: Sequence[str]) -> Consultation:
    heard = tuple(one for one in consultation.known.heard if one.descriptor in words)
    return replace(consultation, known=replace(consultation.known, heard=heard))


def _fits(rules: RuleBase, consultation: Consultation) -> bool:
    evidence = gather(rules, consultation.known)
    return fits_within(network_of_batch(rules, consultation), evidence, MOST_CELLS)


def _cells_without(
    rules: RuleBase, consultation: Consultation, at: tuple[Sequence[str], str]
) -> tuple[int, str]:
    words, without = at
    rest = [word for word in words if word != without]
    left = _with_words(consultation, rest)
    return cells_of(network_of_batch(rules, left), gather(rules, left.known)), without


def with_everything(
    rules: RuleBase, consultation: Consultation, weighed: Consultation, diagnosis: Diagnosis
) -> Diagnosis:
    """The diagnosis of what was weighed, with the bounds that hold for everything said.

    Args:
        rules: the rule base.
        consultation: everything said.
        weighed: what `reachable` left of it.
        diagnosis: what came of that.
    """
    network, evidence = network_of_batch(rules, consultation), gather(rules, consultation.known)
    speaking = frozenset(word for group in diagnosis.faults for word in group.descriptors)
    bounds = share_bounds(network, evidence, MOST_BOUND_CELLS, speaking)
    places = network.cause_index
    faults = tuple(_bounded(group, bounds, places) for group in diagnosis.faults)
    kept = {one.descriptor for one in weighed.known.heard}
    heard = consultation.known.heard
    left_out = dict.fromkeys(one.descriptor for one in heard if one.descriptor not in kept)
    names = tuple(rules.descriptors[word].name for word in left_out)
    partly = Partly(left_out=names, exact=bounds.exact, says=_says(names))
    understood = tuple(understood_line(rules.lexicon, one) for one in heard)
    update = {"faults": faults, "partly": partly, "understood": understood}
    return diagnosis.model_copy(update=update)


def _bounded(group: FaultGroup, bounds: ShareBounds, places: dict[str, int]) -> FaultGroup:
    """The group with its bounds, if its words are among those that were not set aside."""
    at = [n for n, words in enumerate(bounds.groups) if set(words) == set(group.descriptors)]
    if not at:
        return group
    low, high = bounds.low[at[0]], bounds.high[at[0]]

    def with_bounds(cause: RankedCause) -> RankedCause:
        place = places[cause.id]
        held = Bounds(low=float(low[place]), high=float(high[place]))
        return cause.model_copy(update={"responsible_with_all": held})

    return group.model_copy(update={"causes": tuple(map(with_bounds, group.causes))})


def _says(names: Sequence[str]) -> str:
    return (
        "These are more words than can be weighed together at once. The ranking leaves out "
        f"{', '.join(names)}; under each cause stands its chance with all of them."
    )
