"""Words that set off a caution by themselves, whatever flavour was heard or was not."""

from collections.abc import Iterator, Sequence

from diagnose.batch import NotLogged
from diagnose.consult.gathering import Consultation
from diagnose.flavour import Lexicon, word_keys

# Words of one entry stand within so many more words than it has. Judgement.
_BETWEEN = 3
# A denial this many words ahead of a word still denies it ("no bottle ever burst"). Judgement.
_REACH = 3
_DENIALS = frozenset({"nothing", "nobody", "none"})


def told_of(lexicon: Lexicon, consultation: Consultation, said: str) -> bool:
    """Whether the tastings or the notes of the record hold every word of `said`, none denied.

    Danger is heard more readily than flavour: the words may stand in any order, with a few others
    between them, and need not be understood otherwise.
    """
    wanted = frozenset(word_keys(said, lexicon))
    denials = _DENIALS.union(*(word_keys(one, lexicon) for one in _denying(lexicon)))
    return any(
        wanted <= stretch
        for text in _texts(consultation)
        for stretch in _stretches(word_keys(text, lexicon), denials, len(wanted) + _BETWEEN)
    )


def _texts(consultation: Consultation) -> Iterator[str]:
    for one in consultation.words:
        yield " ".join(account.said for account in one.account)
    notes = consultation.batch.record.notes
    if not isinstance(notes, NotLogged):
        yield notes


def _denying(lexicon: Lexicon) -> Iterator[str]:
    """Denials of one word."""
    negations = lexicon.words.negations
    for phrase in (*negations.not_this, *negations.none_of_these):
        if " " not in phrase:
            yield phrase


def _stretches(
    words: Sequence[str], denials: frozenset[str], length: int
) -> Iterator[frozenset[str]]:
    """Every run of so many words, without those denied."""
    said = [
        word if denials.isdisjoint(words[max(at - _REACH, 0) : at]) else ""
        for at, word in enumerate(words)
    ]
    for at in range(max(len(said) - length, 0) + 1):
        yield frozenset(said[at : at + length])
