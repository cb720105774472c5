"""What looks wrong in a record although it could be true, said as it is typed."""

from diagnose.answers import lower_first
from diagnose.batch import Batch
from diagnose.evidence.beer import beer_of
from diagnose.knowledge import RuleBase
from diagnose.process.attenuation import apparent_attenuation_percent
from diagnose.units import Field, Reading, show

# How far beyond the yeast's usual range makes a slip of the pen or of the instrument likelier
# than the beer itself. Judgement.
FAR_ATTENUATION_POINTS = 4.0
FAR_C = 6.0


def remarks_on(rules: RuleBase, batch: Batch) -> tuple[str, ...]:
    """Entries that deserve a second look, in sentences; they are used all the same."""
    by_yeast = [*_odd_final(rules, batch), *_odd_temperature(rules, batch)]
    # Of the final gravity the yeast says more than what beers in general do.
    told = any("gravity" in remark for remark in by_yeast)
    others = (doubt for doubt in batch.doubts if not (told and doubt.key == "gravity.final"))
    return (*by_yeast, *(f"{doubt.key}: {doubt.text}." for doubt in others))


def _odd_final(rules: RuleBase, batch: Batch) -> list[str]:
    original, final = batch.record.gravity.original, batch.record.gravity.final
    yeast = beer_of(rules, batch).yeast
    if yeast is None or not isinstance(original, Reading) or not isinstance(final, Reading):
        return []
    if original.value <= 1.01:
        return []
    got = apparent_attenuation_percent(original.value, final.value)
    low, high = yeast.attenuation.low, yeast.attenuation.high
    usual = f"{lower_first(yeast.name)} takes {low:.0f} to {high:.0f} %"
    if got > high + FAR_ATTENUATION_POINTS:
        return [
            f"The final gravity {final.typed} is far below what this yeast does: {got:.0f} % "
            f"attenuation, where {usual}. Was it read on a refractometer, or warm?"
        ]
    if got < low - 2 * FAR_ATTENUATION_POINTS:
        return [
            f"The final gravity {final.typed} is far above what this yeast leaves: {got:.0f} % "
            f"attenuation, where {usual}."
        ]
    return []


def _odd_temperature(rules: RuleBase, batch: Batch) -> list[str]:
    yeast, held = beer_of(rules, batch).yeast, batch.record.fermentation.temperature
    if yeast is None or not isinstance(held, Reading):
        return []
    low_c, high_c = yeast.ferments_c.low, yeast.ferments_c.high
    if low_c - FAR_C <= held.value <= high_c + FAR_C:
        return []
    side = "above" if held.value > high_c else "below"
    end = show(high_c if side == "above" else low_c, Field.TEMPERATURE)
    return [
        f"{show(held, Field.TEMPERATURE)} is far {side} the {end} that "
        f"{lower_first(yeast.name)} is used at; leave it if it is right."
    ]
