"""Where a record stands: its suspects, and what each open question is worth."""

from dataclasses import dataclass

from diagnose.answers.guided import Suspect
from diagnose.batch import Batch
from diagnose.consult.asking import questions_about
from diagnose.consult.diagnosing import SUSPECTS_ASKED_ABOUT
from diagnose.consult.echoes import echoes_in
from diagnose.consult.gathering import Consultation, consult_on
from diagnose.consult.networks import network_of_batch
from diagnose.consult.whole_answers import in_whole
from diagnose.evidence.gathering import gather
from diagnose.inference.network import Floats
from diagnose.inference.question import Gain, expected_gains
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase

SHOWN_SUSPECTS, SHOWN_OF_SEVERAL = 3, 2
# A chance that moves by less than this is not worth a look. Judgement.
LEAST_MOVE = 0.04


@dataclass(frozen=True)
class Standing:
    """The first suspects of a record, and its open questions by their worth, best first.

    `causes` names the columns of every outcome of a question.
    """

    consultation: Consultation
    suspects: tuple[Suspect, ...]
    gains: tuple[Gain, ...]
    causes: tuple[str, ...] = ()


def standing_of(rules: RuleBase, batch: Batch) -> Standing:
    """Rank the suspects of a record, and weigh every question that is open.

    Args:
        rules: the rule base.
        batch: the record.

    Raises:
        UnusableInput: the record cannot be used.
    """
    consultation = consult_on(rules, batch)
    known = consultation.known
    network, evidence = network_of_batch(rules, consultation), gather(rules, known)
    ranking = rank(network, [evidence])
    if ranking.responsible.size == 0:
        return Standing(consultation, (), ())
    first = _order(ranking, ranking.responsible[0].max(axis=0))[:SUSPECTS_ASKED_ABOUT]
    asked_about = [network.causes[i] for i in first]
    echoes = echoes_in(rules, known, evidence)
    asked = in_whole(echoes, questions_about(rules, known, asked_about))
    gains = expected_gains(network, evidence, asked)
    return Standing(consultation, _suspects(rules, ranking), tuple(gains), network.causes)


def suspects_of(rules: RuleBase, batch: Batch) -> tuple[Suspect, ...]:
    """The first suspects of a record alone.

    Raises:
        UnusableInput: the record cannot be used.
    """
    consultation = consult_on(rules, batch)
    network = network_of_batch(rules, consultation)
    return _suspects(rules, rank(network, [gather(rules, consultation.known)]))


def _suspects(rules: RuleBase, ranking: Ranking) -> tuple[Suspect, ...]:
    """The first suspects of every group of flavours, fewer of each where there are several."""
    groups, causes = ranking.structure.groups, ranking.structure.network.causes
    shown = SHOWN_SUSPECTS if len(groups) == 1 else SHOWN_OF_SEVERAL
    return tuple(
        Suspect(
            id=causes[i],
            name=rules.causes[causes[i]].name,
            behind=tuple(rules.descriptors[word].name for word in words),
            responsible=float(ranking.responsible[0, group, i]),
        )
        for group, words in enumerate(groups)
        for i in _order(ranking, ranking.responsible[0, group])[:shown]
    )


def _order(ranking: Ranking, chances: Floats) -> list[int]:
    """The causes by their chances, best first; by name where they are equal."""
    causes = ranking.structure.network.causes
    return sorted(range(len(causes)), key=lambda i: (-chances[i], causes[i]))


def has_moved(before: tuple[Suspect, ...], after: tuple[Suspect, ...]) -> bool:
    """Whether a short ranking is worth showing again."""
    if [(one.id, one.behind) for one in before] != [(one.id, one.behind) for one in after]:
        return True
    moves = (abs(a.responsible - b.responsible) for a, b in zip(before, after, strict=True))
    return any(move >= LEAST_MOVE for move in moves)
