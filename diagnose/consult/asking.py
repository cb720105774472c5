"""What could be asked about a batch: circumstances, missing entries, checks and further words."""

from collections.abc import Iterator

from diagnose.evidence.gathering import Known, check_piece, circumstance_piece, measure_piece
from diagnose.evidence.pieces import ABSENT, Piece
from diagnose.evidence.said import word_likelihoods
from diagnose.evidence.weighing import typical_finding
from diagnose.flavour import Heard
from diagnose.inference.question import Answer, Question
from diagnose.knowledge import Check, RuleBase

MOST_WORDS = 6


def questions_about(rules: RuleBase, known: Known, suspects: list[str]) -> list[Question]:
    """Every unasked question that speaks to one of the suspects."""
    return [
        *_circumstance_questions(rules, known, suspects),
        *_entry_questions(rules, known, suspects),
        *_check_questions(rules, known, suspects),
        *_word_questions(rules, known, suspects),
    ]


def _circumstance_questions(
    rules: RuleBase, known: Known, suspects: list[str]
) -> Iterator[Question]:
    told = {key for suspect in suspects for key in rules.causes[suspect].circumstances}
    for key, card in rules.circumstances.items():
        if key in told and key not in known.circumstances:
            answers = tuple(
                Answer(value.says, value.share, circumstance_piece(rules, key, name))
                for name, value in card.values.items()
            )
            yield Question("question", key, card.minutes, answers)


def _entry_questions(rules: RuleBase, known: Known, suspects: list[str]) -> Iterator[Question]:
    told = {i.measure for suspect in suspects for i in rules.causes[suspect].indicators}
    for key, card in rules.measures.items():
        if key in told and key not in known.findings:
            answers = tuple(
                Answer(
                    _typical_label(value, card.unit),
                    share,
                    measure_piece(rules, typical_finding(card, value)),
                )
                for value, share in card.typical
            )
            yield Question("entry", key, card.minutes, answers)


def _typical_label(value: float | str, unit: str) -> str:
    if isinstance(value, str):
        return value.replace("_", " ")
    return f"about {value:g}" if unit in ("", "-") else f"about {value:g} {unit}"


def _check_questions(rules: RuleBase, known: Known, suspects: list[str]) -> Iterator[Question]:
    for key, check in rules.checks.items():
        if key not in known.checks and _bears_on(rules, check, suspects):
            answers = tuple(
                Answer(result.says, check.otherwise[result.id], check_piece(check, result.id))
                for result in check.results
            )
            yield Question("check", key, check.minutes, answers)


def _bears_on(rules: RuleBase, check: Check, suspects: list[str]) -> bool:
    causes = {speaks.cause for speaks in check.speaks_for if speaks.cause}
    for speaks in check.speaks_for:
        if speaks.compound:
            causes |= set(rules.compounds[speaks.compound].made_by)
    return bool(causes & set(suspects))


def _word_questions(rules: RuleBase, known: Known, suspects: list[str]) -> Iterator[Question]:
    judged = {heard.descriptor for heard in known.heard}
    strengths: dict[str, float] = {}
    for rank, suspect in enumerate(suspects, start=1):
        for compound in rules.compounds.values():
            if suspect in compound.made_by:
                for word, number in compound.gives.items():
                    strength = compound.made_by[suspect].value * number.value / rank
                    strengths[word] = max(strengths.get(word, 0.0), strength)
    fresh = sorted(set(strengths) - judged, key=lambda word: (-strengths[word], word))
    for word in fresh[:MOST_WORDS]:
        name = rules.descriptors[word].name
        # A plain yes is written down as the plain word, and weighs as much.
        yes = Piece("word", word, words={word: word_likelihoods(rules, _plainly(word))})
        no = Piece("word", word, words={word: ABSENT})
        answers = (Answer(f"{name}: yes", 1.0, yes), Answer(f"{name}: no", 1.0, no))
        yield Question("question", word, 1.0, answers, word=word)


def _plainly(word: str) -> Heard:
    return Heard(said=word, descriptor=word, state="reported", intensity=None, certainty=1.0)
