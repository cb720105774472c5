"""When to stop a split, and what to mind about it."""

from diagnose.trial.plan import Design
from diagnose.units import Field, show

STOP_RULES = (
    "Stop, and taste nothing, if any vessel shows mould, gushes, pours in strings, or smells or "
    "feels of cleaner.",
    "Stop if a vessel was opened, topped up or moved and its partner was not.",
    "Stop the comparison if volumes differ by more than a tenth, or one arm finished early and was "
    "packaged earlier.",
    "The number of answers is fixed now. Do not add tasters because the result is nearly there; "
    "for several evenings fix the limits first with `faultwort panel critical --evenings`.",
)


def remarks_on(design: Design, pairs: int, litres: tuple[float, float]) -> tuple[str, ...]:
    """What a brewer should mind.

    Args:
        design: of the plan.
        pairs: pairs of vessels.
        litres: wanted and given for each vessel.
    """
    needed, part = litres
    found = []
    if design == "search":
        found.append(
            "Search, not proof: several things differ at once. A difference says that one of them "
            "is worth a split of its own."
        )
    if pairs == 1:
        found.append(
            "The vessel is what is tried, not the taster. One pair shows that these two vessels "
            "differ; a second pair that goes the same way is worth more than twice the tasters."
        )
    found.append(
        "If you never tried it: one A/A split, both vessels treated alike and tasted blind, shows "
        "how often your vessels differ for no reason."
    )
    if part < needed:
        gets, wants = show(part, Field.VOLUME), show(needed, Field.VOLUME)
        found.append(
            f"Each vessel gets {gets}, less than the {wants} that panel and fermentation "
            "want. Plan fewer answers, or brew more."
        )
    return tuple(found)
