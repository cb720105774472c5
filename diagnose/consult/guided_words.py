"""What was heard in the first words of a guided entry, in one line."""

from diagnose.answers import not_words
from diagnose.flavour import understand
from diagnose.knowledge import RuleBase


def heard_line(rules: RuleBase, typed: str) -> str:
    """The flavours heard in a note, its doubts, and what was not understood."""
    found = understand(typed, rules.lexicon)
    heard = []
    for one in found.heard:
        name = rules.lexicon.cards[one.descriptor].name
        strength = f" ({one.intensity})" if one.intensity else ""
        others = " or ".join(rules.lexicon.cards[other.id].name for other in one.alternatives)
        told = name + strength + (f", or {others}" if others else "")
        heard.append(not_words(name) if one.state == "absent" else told)
    line = f"Heard: {'; '.join(dict.fromkeys(heard))}." if heard else "No flavour word known here."
    if found.doubts:
        line += f" To tell which: {found.doubts[0].ask}"
    if found.not_understood:
        unknown = ", ".join(f"'{said}'" for said in found.not_understood)
        line += f" Not understood, kept as typed: {unknown}."
    return line
