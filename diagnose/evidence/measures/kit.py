"""What was new about the kit."""

from datetime import timedelta

from diagnose.batch import resolved
from diagnose.batch.cellar import Change
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.evidence.measures.named import says_any

# A part passes on its taste for about a season of brewing; judgement.
_STILL_NEW = timedelta(days=90)
# Likeliest to be tasted first; judgement. A bag counts as one the beer or the mash lies in: the
# bag that corks came in is no part of the kit.
_PARTS = {
    "rubber": ("ring", "seal", "gasket", "bung", "grommet", "rubber", "silicone"),
    "hose": ("hose", "tube", "tubing", "line"),
    "plastic": (
        "bucket",
        "plastic",
        "new bag",
        "brew bag",
        "mash bag",
        "grain bag",
        "liner",
        "pet",
    ),
    "wood": ("barrel", "oak", "cask", "wood", "wooden"),
    "steel": ("steel", "stainless", "kettle", "weld", "welded", "scoured", "keg"),
}
_OTHER = "other"


def new_part(facts: Facts) -> Finding | None:
    """The newest stuff in the path of the beer, from 90 days before brew day to the tasting."""
    changes = facts.record.equipment.changes
    placed = [_counts(facts, change) for change in changes]
    recent = [
        (_part(change.what), change.what, index)
        for index, change in enumerate(changes)
        if placed[index] and isinstance(change.what, str)
    ]
    if recent:
        part, what, index = min(recent, key=lambda one: [*_PARTS, _OTHER].index(one[0]))
        path = ("equipment", "changes", index)
        return facts.word("new_part", part, f"changed on the kit: {what}", path)
    if changes and all(counts is False for counts in placed):
        says = "nothing on the kit changed in the three months before"
        return facts.word("new_part", "none", says, ("equipment", "changes"))
    return None


def _part(what: str) -> str:
    return next((part for part, words in _PARTS.items() if says_any(what, words)), _OTHER)


def _counts(facts: Facts, change: Change) -> bool | None:
    """Whether a change may have touched this beer; None where no brew day places its date."""
    when, brewed, tasted = (
        resolved(facts.record, change.when),
        facts.timeline.brewed,
        facts.timeline.last_tasted,
    )
    if when is None:
        return True
    if tasted is not None and when.date() > tasted.date():
        return False
    return None if brewed is None else when.date() >= (brewed - _STILL_NEW).date()
