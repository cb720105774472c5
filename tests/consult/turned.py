"""A case with an answer given or an entry put right, gathered and ranked from the start again.

Nothing of what the diagnosis itself does to try answers is used here: what is known is changed
as the brewer would change it, and the evidence is gathered anew.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from diagnose.consult import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.evidence.gathering import Known, gather
from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.evidence.weighing import typical_finding
from diagnose.inference.ranking import rank
from tests.knowledge.shipped import rule_base


@dataclass(frozen=True)
class Change:
    """One thing that turns out otherwise, what its sentence has to hold, and what it changes."""

    key: str
    says: str
    known: Callable[[Known], Known] = lambda known: known
    evidence: Callable[[Evidence], Evidence] = lambda evidence: evidence


def changes_of(key: str, known: Known) -> Iterator[Change]:
    """Everything that one key may turn out to be."""
    rules = rule_base()
    if key in rules.circumstances:
        for name, value in rules.circumstances[key].values.items():
            yield Change(key, value.says, _told(key, name))
    if key in rules.checks:
        for result in rules.checks[key].results:
            yield Change(key, result.says, _found(key, result.id))
    if key in known.findings:
        yield Change(key, known.findings[key].says, evidence=lambda one: one.without(key))
    elif key in rules.measures:
        for value, _ in rules.measures[key].typical:
            says = value.replace("_", " ") if isinstance(value, str) else f"about {value:g}"
            yield Change(key, says, _measured(key, value))
    if key in rules.descriptors:
        yes = Piece("word", key, words={key: plain_word()})
        no = Piece("word", key, words={key: ABSENT})
        for piece, says in ((yes, "is found too"), (no, "is not found")):
            yield Change(key, f"{rules.descriptors[key].name} {says}", evidence=_judged(piece))


def plain_word() -> tuple[float, float]:
    """What a word said plainly weighs: (if not there, if there)."""
    clear = rule_base().lexicon.words.intensity.clear
    return clear.said_if_not.value, clear.said_if_there.value


def _told(key: str, value: str) -> Callable[[Known], Known]:
    return lambda known: replace(known, circumstances={**known.circumstances, key: value})


def _found(key: str, result: str) -> Callable[[Known], Known]:
    return lambda known: replace(known, checks={**known.checks, key: result})


def _measured(key: str, value: float | str) -> Callable[[Known], Known]:
    finding = typical_finding(rule_base().measures[key], value)
    return lambda known: replace(known, findings={**known.findings, key: finding})


def _judged(piece: Piece) -> Callable[[Evidence], Evidence]:
    return lambda evidence: evidence.with_piece(piece)


def change_said(key: str, sentence: str, known: Known) -> Change:
    """The change that a sentence speaks of: of all for its key, the longest that it holds."""
    told = [one for one in changes_of(key, known) if one.says.casefold() in sentence.casefold()]
    return max(told, key=lambda one: len(one.says))


def firsts_after(
    consultation: Consultation, sets: Sequence[Sequence[Change]], group: int
) -> list[str]:
    """The first cause of a group as things are known, and after each set of changes."""
    rules, known = rule_base(), [consultation.known]
    for some in sets:
        known.append(consultation.known)
        for change in some:
            known[-1] = change.known(known[-1])
    evidences = [gather(rules, one) for one in known]
    for place, some in enumerate(sets, start=1):
        for change in some:
            evidences[place] = change.evidence(evidences[place])
    return [_first(consultation, one, group) for one in zip(known, evidences, strict=True)]


def _first(consultation: Consultation, now: tuple[Known, Evidence], group: int) -> str:
    network = network_of_batch(rule_base(), replace(consultation, known=now[0]))
    chances = rank(network, [now[1]]).responsible[0, group]
    return network.causes[int(np.argmax(chances))]
