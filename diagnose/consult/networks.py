"""The network of one beer, to be written out."""

from diagnose.errors import Fault, UnusableInput
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
        wanted = f"one of {', '.join(rules.yeasts)}"
        raise UnusableInput(Fault("--yeast", 0, "", repr(yeast), wanted))
    if style and known_style is None:
        wanted = f"one of {', '.join(rules.styles)}"
        raise UnusableInput(Fault("--style", 0, "", repr(style), wanted))
    return network_of(rules, family.id if family else None, known_style.id if known_style else None)
