"""From the words people type to descriptors of the trade, with doubts kept in sight.

What reads and checks the cards is fetched from its module when it is asked for: a lexicon that
was kept from an earlier run needs neither.
"""

from typing import TYPE_CHECKING

from diagnose.flavour.card import Confusion, DescriptorCard
from diagnose.flavour.lexicon import Lexicon, build_lexicon, word_keys
from diagnose.flavour.meaning import Role
from diagnose.flavour.understand import understand
from diagnose.flavour.understanding import Account, Candidate, Doubt, Heard, Understanding
from diagnose.flavour.words import Strength, WordsFile

if TYPE_CHECKING:
    from diagnose.flavour.faults import lexicon_faults
    from diagnose.flavour.load import load_lexicon
else:
    from diagnose.fetching import fetched_from

    _HOMES = {"lexicon_faults": "faults", "load_lexicon": "load"}
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = [
    "Account",
    "Candidate",
    "Confusion",
    "DescriptorCard",
    "Doubt",
    "Heard",
    "Lexicon",
    "Role",
    "Strength",
    "Understanding",
    "WordsFile",
    "build_lexicon",
    "lexicon_faults",
    "load_lexicon",
    "understand",
    "word_keys",
]
