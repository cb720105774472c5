"""Which arm of a split brings the fault if the suspect is responsible."""

from diagnose.knowledge import Cause
from diagnose.knowledge.causes import SplitHint

# A card names its arms in the order a brewer would do them. In these the second is the one
# that brings the fault; in all others the first is.
_SECOND = frozenset(
    {
        "acetic_contamination",
        "bag_squeezed",
        "bottle_yeast_breakdown",
        "fatty_adjunct",
        "hop_creep",
        "hot_early_fermentation",
        "long_on_yeast",
        "overprimed",
        "oxygen_at_packaging",
        "primed_taster",
        "served_wrong_temperature",
        "tired_palate",
        "trub_carried_over",
        "uneven_fill_headspace",
        "warm_storage",
    }
)


def settings_of(cause: Cause, hint: SplitHint) -> tuple[str, str]:
    """The setting that brings the fault if the cause is responsible, and the other one."""
    first, second = hint.arms
    return (second, first) if cause.id in _SECOND else (first, second)


def causes_with_second_arm() -> frozenset[str]:
    """Ids of the causes whose card names the suspect setting second."""
    return _SECOND
