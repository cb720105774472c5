"""The network of one beer: of a batch, or to be written out."""

from diagnose.consult.gathering import Consultation
from diagnose.errors import Fault, UnusableInput, one_of
from diagnose.evidence.noticing import noticed_shares
from diagnose.evidence.said import said_words
from diagnose.inference.network import Network, network_of
from diagnose.knowledge import RuleBase


def network_for(rules: RuleBase, yeast: str | None, style: str | None) -> Network:
    """The network for a yeast family and style given by id, name or alias.

    Raises:
        UnusableInput: the rule base does not know one of them.
    """
    family = rules.yeast_called(yeast) if yeast else None
    known_style = rules.style_called(style) if style else None
    if yeast and family is None:
        wanted = one_of(yeast, rules.yeasts)
        raise UnusableInput(Fault("--yeast", 0, "", repr(yeast), wanted))
    if style and known_style is None:
        wanted = one_of(style, rules.styles)
        raise UnusableInput(Fault("--style", 0, "", repr(style), wanted))
    return network_of(rules, family.id if family else None, known_style.id if known_style else None)


def network_of_batch(rules: RuleBase, consultation: Consultation) -> Network:
    """The network of this beer, with what its record predicts and the words as they were meant."""
    beer, known = consultation.beer, consultation.known
    noticed = noticed_shares(rules, known.findings)
    return network_of(rules, beer.yeast_id, beer.style_id, noticed, said_words(rules, known.heard))
