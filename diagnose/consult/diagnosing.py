"""The diagnosis: words and a record in, ranked causes with their evidence out."""

from collections.abc import Sequence

from diagnose.answers import (
    CompoundLine,
    Diagnosis,
    EvidenceLine,
    FaultGroup,
    NoticedFrom,
    OneForAll,
    Overturned,
    Predicted,
    RankedCause,
    RulesUsed,
)
from diagnose.consult.answered import Answered, answered
from diagnose.consult.asked_before import asked_in_vain
from diagnose.consult.asking import questions_about
from diagnose.consult.beer_words import beer_text, odd_entries, package_of
from diagnose.consult.cautioning import cautions_for, set_off_by_record
from diagnose.consult.echoes import echoes_in
from diagnose.consult.families import families_of
from diagnose.consult.first_words import what_to_type
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.overturning import Case, overturned
from diagnose.consult.pairs import likely_pairs
from diagnose.consult.separating import separating_all, separating_question
from diagnose.consult.shared import bystanders, one_for_all
from diagnose.consult.stepping import missing_entries, next_steps, overturned_by
from diagnose.consult.turning import mistaken_entries, together
from diagnose.consult.verdict import named_in, verdict_of
from diagnose.consult.whole_answers import in_whole
from diagnose.consult.within import reachable, with_everything
from diagnose.consult.wording import evidence_line
from diagnose.consult.words import near_words, understood_line
from diagnose.evidence.finding import NumberFinding
from diagnose.evidence.gathering import gather
from diagnose.evidence.said import said_words
from diagnose.inference.explanation import Explanation, explain
from diagnose.inference.network import Network
from diagnose.inference.question import Question, expected_gains
from diagnose.knowledge import RuleBase, paths_between

SHOWN_CAUSES = 12
SUSPECTS_ASKED_ABOUT = 8
# Evidence that moves a cause's odds by less than this is not worth a line. Judgement.
LEAST_DECIBANS = 0.3


def diagnose(rules: RuleBase, consultation: Consultation) -> Diagnosis:
    """Diagnose a batch.

    Where more was said of its taste than can be weighed in full, some of the words are left out,
    and the chances that hold with all of them stand beside the others.

    Args:
        rules: the rule base.
        consultation: the batch and what is known about it.
    """
    weighed = reachable(rules, consultation)
    diagnosis = _in_full(rules, weighed)
    if weighed is consultation:
        return diagnosis
    return with_everything(rules, consultation, weighed, diagnosis)


def _in_full(rules: RuleBase, consultation: Consultation) -> Diagnosis:
    known = consultation.known
    network = network_of_batch(rules, consultation)
    evidence = gather(rules, known)
    echoes = echoes_in(rules, known, evidence)
    mistaken = mistaken_entries(echoes)
    also = [evidence.with_piece(together([one])) for one in mistaken]
    explanation = explain(network, evidence, also)
    suspects = _suspects(network, explanation)
    asked = in_whole(echoes, _questions(rules, consultation, suspects))
    gains = expected_gains(network, evidence, asked)
    told = answered(gains, explanation.ranking.responsible.shape[1:])
    turns = overturned(rules, Case(echoes, explanation, told, mistaken))
    faults = _faults(rules, consultation, (explanation, told), turns)
    for_all = one_for_all(rules, evidence, explanation.ranking)
    apart = separating_all(rules, told, _first_two(network, for_all))
    praised = any(one.praise for one in consultation.words)
    verdict, verdict_text = verdict_of(rules, faults, for_all, apart, praised=praised)
    lost = tuple(said for one in consultation.words for said in one.not_understood)
    return Diagnosis(
        batch=consultation.batch.name,
        rules=_rules_used(rules),
        beer=beer_text(consultation),
        understood=tuple(understood_line(rules.lexicon, h) for h in consultation.known.heard),
        doubts=tuple(doubt.ask for one in consultation.words for doubt in one.doubts),
        not_understood=lost,
        near_words=near_words(rules.lexicon, lost),
        faults=faults,
        one_cause_for_all=for_all,
        pairs=likely_pairs(rules, evidence, explanation.ranking),
        bystanders=bystanders(rules, explanation.ranking),
        compounds=_compounds(rules, consultation, explanation),
        next_=next_steps(rules, gains, named_in(verdict_text, faults, apart)) if faults else (),
        cautions=cautions_for(rules, consultation, faults),
        odd_entries=odd_entries(consultation),
        missing=missing_entries(rules, known, suspects),
        verdict=verdict,
        verdict_text=verdict_text,
        to_type=what_to_type(consultation, faults),
    )


def _faults(
    rules: RuleBase,
    consultation: Consultation,
    solved: tuple[Explanation, Answered],
    turns: Sequence[Overturned],
) -> tuple[FaultGroup, ...]:
    groups = (_fault_group(rules, consultation, solved, group) for group in range(len(turns)))
    return tuple(map(_with_turn, groups, turns))


def _questions(rules: RuleBase, consultation: Consultation, suspects: list[str]) -> list[Question]:
    in_vain = asked_in_vain(rules, consultation.batch)
    asked = questions_about(rules, consultation.known, suspects)
    return [question for question in asked if question.key not in in_vain]


def _suspects(network: Network, explanation: Explanation) -> list[str]:
    responsible = explanation.ranking.responsible[0]
    if responsible.size == 0:
        return []
    best = responsible.max(axis=0)
    order = sorted(range(len(network.causes)), key=lambda i: (-best[i], network.causes[i]))
    return [network.causes[i] for i in order[:SUSPECTS_ASKED_ABOUT]]


def _first_two(network: Network, for_all: Sequence[OneForAll]) -> tuple[int, int] | None:
    first, second, *_ = (*(network.cause_index[one.id] for one in for_all), None, None)
    return None if first is None or second is None else (first, second)


def _rules_used(rules: RuleBase) -> RulesUsed:
    return RulesUsed(
        version=rules.version,
        causes=len(rules.causes),
        compounds=len(rules.compounds),
        descriptors=len(rules.descriptors),
    )


def _fault_group(
    rules: RuleBase,
    consultation: Consultation,
    solved: tuple[Explanation, Answered],
    group: int,
) -> FaultGroup:
    ranking = solved[0].ranking
    network = ranking.structure.network
    responsible = ranking.responsible[0, group]
    order = sorted(range(len(network.causes)), key=lambda i: (-responsible[i], network.causes[i]))
    return FaultGroup(
        descriptors=ranking.structure.groups[group],
        names=tuple(rules.descriptors[word].name for word in ranking.structure.groups[group]),
        causes=tuple(
            _ranked(rules, consultation, solved, (group, i)) for i in order[:SHOWN_CAUSES]
        ),
        families=families_of(rules, ranking, group),
        expected_here=float(ranking.expected_here[0, group]),
        not_in_rule_base=float(ranking.not_in_rule_base[0, group]),
        told_apart_by=separating_question(rules, solved[1], group, (order[0], order[1])),
    )


def _with_turn(group: FaultGroup, turn: Overturned) -> FaultGroup:
    """The group with what would put another cause than its first in the first place."""
    first, *others = group.causes
    first = first.model_copy(update={"overturned_by": turn.by})
    return group.model_copy(update={"causes": (first, *others), "overturned": turn})


def _ranked(
    rules: RuleBase,
    consultation: Consultation,
    solved: tuple[Explanation, Answered],
    at: tuple[int, int],
) -> RankedCause:
    (explanation, told), (group, index) = solved, at
    ranking = explanation.ranking
    cause = ranking.structure.network.causes[index]
    card = rules.causes[cause]
    said = said_words(rules, consultation.known.heard)
    words = ranking.structure.groups[group]
    senses = [sense for word in words if word in said for sense in said[word].senses]
    paths = [path for sense in senses for path in paths_between(rules, cause, sense)]
    return RankedCause(
        id=cause,
        name=card.name,
        stage=card.stage,
        responsible=float(ranking.responsible[0, group, index]),
        happened=float(ranking.happened[0, index]),
        base_rate=card.base_rate.value,
        evidence=_evidence(rules, consultation, explanation, at),
        together_decibans=float(explanation.together[group, index]),
        paths=tuple(paths),
        now=card.advice(package_of(consultation), set_off_by_record(rules, consultation)),
        next_time=card.next_time,
        overturned_by=overturned_by(rules, told, at),
        wrong_to_blame=card.wrong_to_blame,
    )


def _evidence(
    rules: RuleBase, consultation: Consultation, explanation: Explanation, at: tuple[int, int]
) -> tuple[EvidenceLine, ...]:
    group, index = at
    cause = explanation.ranking.structure.network.causes[index]
    lines = []
    for row, piece in enumerate(explanation.keys):
        decibans = float(explanation.decibans[row, group, index])
        if piece[0] == "unlogged" or abs(decibans) < LEAST_DECIBANS:
            continue
        lines.append(evidence_line(rules, consultation.known, piece, (cause, decibans)))
    return tuple(sorted(lines, key=lambda line: (-abs(line.decibans), line.key)))


def _compounds(
    rules: RuleBase, consultation: Consultation, explanation: Explanation
) -> tuple[CompoundLine, ...]:
    ranking = explanation.ranking
    lines = []
    for index in sorted(ranking.structure.behind):
        card = rules.compounds[ranking.structure.network.compounds[index]]
        finding = consultation.known.findings.get(card.predicted_by or "")
        noticed = card.noticed_from
        lines.append(
            CompoundLine(
                id=card.id,
                name=card.name,
                probability=float(ranking.present[0, index]),
                predicted=Predicted(
                    low=finding.band.low,
                    mid=finding.band.mid,
                    high=finding.band.high,
                    unit=rules.measures[finding.measure].unit,
                )
                if isinstance(finding, NumberFinding)
                else None,
                noticed_from=NoticedFrom(
                    low=noticed.low, value=noticed.value, high=noticed.high, unit=noticed.unit or ""
                )
                if noticed
                else None,
            )
        )
    return tuple(sorted(lines, key=lambda line: (-line.probability, line.id)))
