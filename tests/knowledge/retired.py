"""A rule base of which some ids were retired."""

from collections.abc import Sequence
from dataclasses import replace

from diagnose.documents import Document
from diagnose.knowledge import Place, Retired, RuleBase

Entry = tuple[str, str, Sequence[str]]
SINCE, WHY = "0.2.0", "one card spoke of two things"


def retire(rules: RuleBase, *entries: Entry) -> RuleBase:
    """The rule base with a list of retired ids: (id, kind, what replaces it)."""
    listed = [
        {"id": card_id, "kind": kind, "replaced_by": instead, "since": SINCE, "why": WHY}
        for card_id, kind, instead in entries
    ]
    document = Document("rules/retired.yaml", listed, {(i,): i + 1 for i in range(len(listed))})
    cards = [Retired.model_validate(entry) for entry in listed]
    return replace(
        rules,
        retired={card.id: card for card in cards},
        retired_places={card.id: Place(document, (i,)) for i, card in enumerate(cards)},
    )
