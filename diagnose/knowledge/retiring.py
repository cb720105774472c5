"""Ids that are no longer used: what is said to whoever still does."""

from collections.abc import Collection, Iterator

from diagnose.errors import Fault
from diagnose.knowledge.base import RuleBase

Sides = tuple[str, str]


def retired_sides(rules: RuleBase, card_id: str, kinds: Collection[str] = ()) -> Sides | None:
    """What was found and what is wanted, where `card_id` is a retired id; else None.

    Args:
        rules: the rule base.
        card_id: the id as it is used.
        kinds: the kinds of card that are meant; none for any.
    """
    card = rules.retired.get(card_id)
    if card is None or (kinds and card.kind not in kinds):
        return None
    instead = " or ".join(card.replaced_by)
    fate = f"replaced by {instead}" if instead else "dropped"
    why = f"{card_id} was {fate} in {card.since}: {card.why}"
    return f"the retired id {card_id}", f"{instead or 'another id, or none'} ({why})"


def retired_faults(rules: RuleBase) -> Iterator[Fault]:
    """Retired ids that a card still has, and replacements that are not there."""
    for card_id, card in rules.retired.items():
        place, live = rules.retired_places[card_id], getattr(rules, card.kind)
        if card_id in live:
            yield place.fault(("id",), card_id, f"an id that none of the {card.kind} has")
        for name in card.replaced_by:
            if name not in live:
                wanted = f"the id of one of the {card.kind}"
                yield place.fault(("replaced_by",), name, wanted)
