"""From the words people type to descriptors of the trade, with doubts kept in sight."""

from diagnose.flavour.card import Confusion, DescriptorCard
from diagnose.flavour.faults import lexicon_faults
from diagnose.flavour.lexicon import Lexicon, build_lexicon
from diagnose.flavour.load import load_lexicon
from diagnose.flavour.meaning import Role
from diagnose.flavour.understand import understand
from diagnose.flavour.understanding import Account, Candidate, Doubt, Heard, Understanding
from diagnose.flavour.words import Strength, WordsFile

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
]
