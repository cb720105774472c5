"""From pieces with verdicts to flavours heard, each with its other meanings and its doubts."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import prod

from diagnose.flavour.attach import strengths, unsure
from diagnose.flavour.denial import Verdict
from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.meaning import Role
from diagnose.flavour.piece import Piece
from diagnose.flavour.senses import Shares
from diagnose.flavour.tokens import Gap
from diagnose.flavour.understanding import Candidate, Doubt, Heard
from diagnose.flavour.words import Intensity


@dataclass(frozen=True)
class Sentence:
    """A note ready to be heard: its pieces, how each may be shown, verdicts and meanings."""

    pieces: Sequence[Piece]
    shown: Sequence[str]
    verdicts: Mapping[int, Verdict]
    senses: Mapping[int, Shares]


def hear(sentence: Sentence, lexicon: Lexicon) -> tuple[tuple[Heard, ...], tuple[Doubt, ...]]:
    """Every flavour of the sentence, one entry per descriptor, and what is in doubt about it."""
    pairs = _either_or(sentence)
    certainties = _certainties(sentence, {at for pair in pairs for at in pair}, lexicon)
    intensities = strengths(sentence.pieces)
    heard: dict[str, Heard] = {}
    doubts: list[Doubt] = []
    for at in sorted(sentence.senses):
        one = _heard(sentence, at, certainty=certainties[at], intensity=intensities.get(at))
        doubts += _doubts_about(sentence, at, one=one, lexicon=lexicon)
        earlier = heard.get(one.descriptor)
        if earlier and earlier.state != one.state:
            doubts.append(_ask(one, one.certainty, lexicon.cards[one.descriptor].asks))
        heard[one.descriptor] = _merged(earlier, one, lexicon) if earlier else one
    doubts += [_pair_doubt(sentence, pair, lexicon) for pair in pairs]
    return tuple(heard.values()), tuple(dict.fromkeys(doubts))


def _heard(sentence: Sentence, at: int, *, certainty: float, intensity: Intensity | None) -> Heard:
    absent = sentence.verdicts[at].absent
    best, *others = sentence.senses[at]
    return Heard(
        said=sentence.shown[at],
        descriptor=best.id,
        state="absent" if absent else "reported",
        intensity=None if absent else intensity,
        certainty=round(certainty, 4),
        alternatives=tuple(others),
    )


def _certainties(sentence: Sentence, paired: set[int], lexicon: Lexicon) -> dict[int, float]:
    certainty = lexicon.words.certainty
    doubted = unsure(sentence.pieces)
    return {
        at: prod(
            (
                shares[0].score,
                sentence.pieces[at].certainty,
                certainty.unsure.value if at in doubted - paired else 1.0,
                certainty.either_or.value if at in paired else 1.0,
                certainty.not_this_and_that.value if sentence.verdicts[at].doubtful else 1.0,
            )
        )
        for at, shares in sentence.senses.items()
    }


def _doubts_about(sentence: Sentence, at: int, *, one: Heard, lexicon: Lexicon) -> Iterator[Doubt]:
    card = lexicon.cards[one.descriptor]
    if one.alternatives and one.state == "reported":
        trick = lexicon.trick(one.descriptor, one.alternatives[0].id)
        yield Doubt(said=one.said, candidates=sentence.senses[at], ask=trick)
    elif sentence.pieces[at].misspelt:
        yield _ask(one, sentence.pieces[at].certainty, f"Do you mean {card.name}?")
    if sentence.verdicts[at].doubtful:
        yield _ask(one, one.certainty, card.asks)


def _ask(one: Heard, score: float, question: str) -> Doubt:
    candidate = Candidate(id=one.descriptor, score=score)
    return Doubt(said=one.said, candidates=(candidate,), ask=question)


def _either_or(sentence: Sentence) -> list[tuple[int, int]]:
    """Neighbouring flavours reported as one or the other ("butter or corn")."""
    flavours = sorted(sentence.senses)
    return [
        (one, other) for one, other in pairwise(flavours) if _is_either_or(sentence, one, other)
    ]


def _is_either_or(sentence: Sentence, one: int, other: int) -> bool:
    between = sentence.pieces[one + 1 : other]
    said_there = not (sentence.verdicts[one].absent or sentence.verdicts[other].absent)
    unlike = sentence.senses[one][0].id != sentence.senses[other][0].id
    joined = any(piece.role is Role.EITHER for piece in between)
    parted = any(piece.gap is Gap.HARD for piece in (*between, sentence.pieces[other]))
    return said_there and unlike and joined and not parted


def _pair_doubt(sentence: Sentence, pair: tuple[int, int], lexicon: Lexicon) -> Doubt:
    ids = [sentence.senses[at][0].id for at in pair]
    share = lexicon.words.certainty.either_or.value
    return Doubt(
        said=" or ".join(sentence.shown[at] for at in pair),
        candidates=tuple(Candidate(id=one, score=share) for one in ids),
        ask=lexicon.trick(ids[0], ids[1]),
    )


def _merged(earlier: Heard, later: Heard, lexicon: Lexicon) -> Heard:
    """Two mentions of one flavour: the surer one counts; said and denied leaves it reported."""
    said = ", ".join(dict.fromkeys((earlier.said, later.said)))
    surer = max(earlier, later, key=lambda one: one.certainty)
    if earlier.state == later.state:
        intensity = _stronger(earlier.intensity, later.intensity)
        return surer.model_copy(update={"said": said, "intensity": intensity})
    there = earlier if earlier.state == "reported" else later
    certainty = round(there.certainty * lexicon.words.certainty.contradicted.value, 4)
    return there.model_copy(update={"said": said, "certainty": certainty})


def _stronger(one: Intensity | None, other: Intensity | None) -> Intensity | None:
    order: tuple[Intensity | None, ...] = (None, "faint", "clear", "strong")
    return max(one, other, key=order.index)
