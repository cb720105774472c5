"""Causes by what a brewer types for them: an id, a name, a part of either, or a flavour."""

import re
from difflib import get_close_matches

from diagnose.flavour import understand
from diagnose.knowledge.base import RuleBase, fold

SHOWN = 3
# Words that stand in too many names to tell one from another.
_LEAST_LETTERS = 4
# How alike a name is that differs by a slip, one that may be meant, and a word of one. Judgement.
_A_SLIP, _LEAST_ALIKE, _A_WORD_ALIKE = 0.85, 0.6, 0.8


def named_cause(rules: RuleBase, typed: str) -> str:
    """The id of the cause that is called so, by its id or its name; else what was typed."""
    wanted = fold(typed)
    called = (one for one, card in rules.causes.items() if wanted in (fold(one), fold(card.name)))
    return next(called, typed)


def near_causes(rules: RuleBase, typed: str) -> tuple[str, ...]:
    """Causes that may be meant, the nearest first.

    Args:
        rules: the rule base.
        typed: what is no cause's id or name.

    Returns:
        Ids: those that begin as typed, differ by a slip of the hand, share most words with it (a
        word may be misspelt), are written somewhat like it, or make a flavour that it names.
    """
    wanted = fold(typed)
    if not wanted:
        return ()
    folded = {fold(one): one for one in rules.causes}
    begun = [one for text, one in folded.items() if text.startswith(wanted)]
    slips, alike = (
        get_close_matches(wanted, folded, SHOWN, cut) for cut in (_A_SLIP, _LEAST_ALIKE)
    )
    written = [folded[text] for text in (*slips, *alike)]
    near = (*begun, *written[: len(slips)], *_sharing_words(rules, wanted), *written)
    found = (*near, *_making(rules, wanted))
    return tuple(dict.fromkeys(found))[:SHOWN]


def near_causes_said(rules: RuleBase, typed: str) -> str:
    """The causes that may be meant, as a sentence goes on: ", perhaps x (its name) or y (its)"."""
    near = [f"{one} ({rules.causes[one].name})" for one in near_causes(rules, typed)]
    return f", perhaps {' or '.join(near)}" if near else ""


def _sharing_words(rules: RuleBase, wanted: str) -> list[str]:
    names = {one: _words(f"{fold(one)} {fold(card.name)}") for one, card in rules.causes.items()}
    every = sorted(set().union(*names.values()))
    typed = _words(wanted)
    words = {word for one in typed for word in get_close_matches(one, every, 1, _A_WORD_ALIKE)}
    shared = {one: len(words & names[one]) for one in names}
    most = max(shared.values(), default=0)
    # Half of what was typed at least; one word of many is met everywhere.
    if not most or 2 * most < len(typed):
        return []
    return sorted(one for one in shared if shared[one] == most)


def _words(text: str) -> set[str]:
    return {word for word in re.findall(r"[a-z]+", text) if len(word) >= _LEAST_LETTERS}


def _making(rules: RuleBase, wanted: str) -> list[str]:
    """The likeliest causes of a compound of that name, or of the compounds of a flavour."""
    flavours = {
        one for one, card in rules.descriptors.items() if wanted in (fold(one), fold(card.name))
    } or {one.descriptor for one in understand(wanted, rules.lexicon).heard}
    strength: dict[str, float] = {}
    for one, card in rules.compounds.items():
        if wanted in (fold(one), fold(card.name)) or flavours & set(card.gives):
            for cause, number in card.made_by.items():
                rate = number.value * rules.causes[cause].base_rate.value
                strength[cause] = max(strength.get(cause, 0.0), rate)
    return sorted(strength, key=lambda cause: (-strength[cause], cause))
