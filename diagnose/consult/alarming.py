"""Words that set off a caution by themselves, whatever flavour was heard or was not."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.batch import NotLogged
from diagnose.consult.gathering import Consultation
from diagnose.flavour import Lexicon, word_keys
from diagnose.knowledge import RuleBase

# Words of one entry stand within so many more words than it has. Judgement.
_BETWEEN = 3
# A denial this many words ahead of a word still denies it ("no bottle ever burst"). Judgement.
_REACH = 3
_DENIALS = frozenset({"nothing", "nobody", "none"})


@dataclass(frozen=True)
class Told:
    """Every word of the tastings and of the record's notes, in the lexicon's spelling."""

    lexicon: Lexicon
    texts: tuple[tuple[str, ...], ...]

    def of(self, said: str) -> bool:
        """Whether one text holds every word of `said`, none of them denied.

        Danger is heard more readily than flavour: the words may stand in any order, with a few
        others between them, and need not be understood otherwise.
        """
        wanted = frozenset(said.split())
        return any(
            wanted <= stretch
            for words in self.texts
            if wanted.issubset(words)
            for stretch in _stretches(words, _denials(self.lexicon), len(wanted) + _BETWEEN)
        )


def told_by(rules: RuleBase, consultation: Consultation) -> Told:
    """What the brewer said and wrote about a beer."""
    texts = [" ".join(part.said for part in one.account) for one in consultation.words]
    notes = consultation.batch.record.notes
    if not isinstance(notes, NotLogged):
        texts.append(notes)
    return Told(rules.lexicon, tuple(word_keys(text, rules.lexicon) for text in texts))


def _denials(lexicon: Lexicon) -> frozenset[str]:
    """Denials of one word."""
    negations = lexicon.words.negations
    phrases = (*negations.not_this, *negations.none_of_these)
    words = " ".join(phrase for phrase in phrases if " " not in phrase)
    return _DENIALS.union(word_keys(words, lexicon))


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
