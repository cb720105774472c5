"""A flaw as the brewer names it: descriptor ids, or words that are understood as such."""

from diagnose.errors import Fault, UnusableInput
from diagnose.flavour import Lexicon, understand
from diagnose.history.listing import shown_id


def flaw_ids(words: str, lexicon: Lexicon) -> frozenset[str]:
    """The descriptors that words may mean, every sense of them.

    Raises:
        UnusableInput: no flavour was understood.
    """
    named = shown_id(words)
    if named in lexicon.cards:
        return frozenset({named})
    heard = [one for one in understand(words, lexicon).heard if one.state == "reported"]
    found = {one.descriptor for one in heard} | {
        other.id for one in heard for other in one.alternatives
    }
    if not found:
        wanted = "a flavour, such as 'buttery'; 'faultwort taste WORDS' shows what is understood"
        raise UnusableInput(Fault("--flaw", 0, "", repr(words), wanted))
    return frozenset(found)
