"""A typed tasting note to flavours, doubts and circumstances; no word is lost."""

from collections.abc import Mapping, Sequence
from itertools import groupby

from diagnose.flavour.comparing import settle_comparisons
from diagnose.flavour.denial import Verdict, judge_flavours
from diagnose.flavour.durations import read_durations
from diagnose.flavour.hearing import Sentence, hear
from diagnose.flavour.lexicon import Lexicon
from diagnose.flavour.loose import look_again
from diagnose.flavour.meaning import Role
from diagnose.flavour.phrases import read_phrases
from diagnose.flavour.piece import Piece, typed
from diagnose.flavour.praise import praised
from diagnose.flavour.senses import weigh_senses
from diagnose.flavour.tokens import Token, cut_into_words
from diagnose.flavour.told import circumstances
from diagnose.flavour.understanding import Account, Understanding

_NOTED = frozenset({Role.WHERE, Role.DURATION, Role.CIRCUMSTANCE})


def understand(text: str, lexicon: Lexicon) -> Understanding:
    """Read a tasting note as people type it.

    Args:
        text: anything; words that mean nothing to the lexicon are handed back, never dropped.
        lexicon: the cards and small words to read with.

    Returns:
        What was heard, what is in doubt and what was not understood. A household name is shown as
        the name of its descriptor.
    """
    tokens = cut_into_words(text)
    pieces = read_durations(read_phrases(tokens, lexicon), tokens, lexicon)
    pieces = look_again(pieces, tokens, lexicon)
    pieces = settle_comparisons(pieces, tokens, lexicon)
    pieces, verdicts = _without_vague(pieces, judge_flavours(pieces), lexicon)
    senses = weigh_senses(pieces, verdicts, lexicon)
    shown = [
        lexicon.cards[senses[at][0].id].name if piece.meaning.brand else typed(piece, tokens)
        for at, piece in enumerate(pieces)
    ]
    heard, doubts = hear(Sentence(pieces, shown, verdicts, senses), lexicon)
    told = circumstances(pieces, verdicts)
    return Understanding(
        heard=heard,
        doubts=doubts,
        not_understood=_not_understood(pieces, tokens),
        circumstances=told,
        notes=_notes(pieces, shown, told),
        praise=tuple(shown[at] for at in praised(pieces, verdicts)),
        account=tuple(
            Account(said=said, role=piece.role) for said, piece in zip(shown, pieces, strict=True)
        ),
    )


def _without_vague(
    pieces: list[Piece], verdicts: dict[int, Verdict], lexicon: Lexicon
) -> tuple[list[Piece], dict[int, Verdict]]:
    """Drop "something off" once a flavour with a name is reported: it says nothing more."""
    vague = set(lexicon.words.vague)
    dropped = {at for at in verdicts if set(pieces[at].meaning.senses) <= vague}
    if all(verdict.absent or at in dropped for at, verdict in verdicts.items()):
        return pieces, verdicts
    kept = [p.as_role(Role.FILLER) if at in dropped else p for at, p in enumerate(pieces)]
    return kept, {at: verdict for at, verdict in verdicts.items() if at not in dropped}


def _not_understood(pieces: Sequence[Piece], tokens: Sequence[Token]) -> tuple[str, ...]:
    """Runs of neighbouring words that nothing covers, as typed."""
    return tuple(
        " ".join(typed(piece, tokens) for piece in run)
        for role, run in groupby(pieces, key=lambda piece: piece.role)
        if role is Role.NOT_UNDERSTOOD
    )


def _notes(
    pieces: Sequence[Piece], shown: Sequence[str], told: Mapping[str, str]
) -> tuple[str, ...]:
    """Places and times that no circumstance holds."""
    held = {f"{name}={value}" for name, value in told.items()}
    return tuple(
        said
        for piece, said in zip(pieces, shown, strict=True)
        if piece.role in _NOTED and piece.meaning.value not in held
    )
