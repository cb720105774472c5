"""The cautions that one card of the rule base calls for, before there is any batch."""

from collections.abc import Collection, Iterable

from diagnose.answers import CautionLine
from diagnose.knowledge import RuleBase
from diagnose.knowledge.lists import Caution, Trigger

_ORDER = {"stop": 0, "warn": 1, "note": 2}


def cautions_of_card(
    rules: RuleBase, card_id: str, named: Collection[str]
) -> tuple[CautionLine, ...]:
    """The cautions that a card names, and those that what is on it can set off."""
    return gravest_first(
        card
        for card in rules.cautions.values()
        if card.id in named or any(card_id in _about(trigger) for trigger in card.when)
    )


def gravest_first(cards: Iterable[Caution]) -> tuple[CautionLine, ...]:
    """Cautions as they are shown, those that say stop first."""
    return gravest_lines_first(CautionLine(level=card.level, text=card.text) for card in cards)


def gravest_lines_first(lines: Iterable[CautionLine]) -> tuple[CautionLine, ...]:
    """Cautions of several places, those that say stop first."""
    return tuple(sorted(lines, key=lambda line: _ORDER[line.level]))


def _about(trigger: Trigger) -> tuple[str | None, ...]:
    return trigger.cause, trigger.descriptor, trigger.measure
