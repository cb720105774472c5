"""How warm and how cold the beer stood, and how warm it was poured."""

from diagnose.batch import resolved
from diagnose.documents import Path
from diagnose.evidence.facts import THERMOMETER, Facts, days_text
from diagnose.evidence.finding import Finding
from diagnose.evidence.measures.package import storage_stretches, store_shift_c
from diagnose.process import Band
from diagnose.units import HOURS_PER_DAY, Field, Reading, show


def mean_store_c(facts: Facts) -> Finding | None:
    """Mean temperature of storage, every stretch weighted by its length."""
    stretches = storage_stretches(facts)
    if not stretches:
        return None
    kept_c = {f"stretch {at}": one for at, (_, one) in enumerate(stretches)}
    lasted_h = {f"stretch {at}": one for at, (one, _) in enumerate(stretches)}

    def mean_of(*, shift_c: float, **hours_of: float) -> float:
        mean_c = sum(hours_of[key] * kept_c[key] for key in kept_c) / sum(hours_of.values())
        return shift_c + mean_c

    band = facts.model(mean_of, shift_c=store_shift_c(facts), **lasted_h)
    hours = sum(one.mid for one in lasted_h.values())
    mean = show(band.mid, Field.TEMPERATURE)
    says = f"stored at {mean} on average over {days_text(hours / HOURS_PER_DAY)}"
    return facts.number("mean_store_c", band, says, ("storage",))


def coldest_store_c(facts: Facts) -> Finding | None:
    """Lowest temperature noted of storage or crash."""
    noted: list[tuple[float, float, Path]] = [
        (stretch.at.low, stretch.at.value, ("storage", index, "at"))
        for index, stretch in enumerate(facts.record.storage)
        if isinstance(stretch.at, Reading)
    ]
    crashed_to = facts.record.fermentation.crashed_to
    if isinstance(crashed_to, Reading):
        noted.append((crashed_to.low, crashed_to.value, ("fermentation", "crashed_to")))
    if not noted:
        return None
    coldest_c, usual_c, path = min(noted, key=lambda one: one[0])
    swing = facts.constants["chiller_swing"]
    band = Band(coldest_c + swing.low, coldest_c, usual_c + swing.high)
    says = f"the coldest it stood was {show(coldest_c, Field.TEMPERATURE)}"
    return facts.number("coldest_store_c", band, says, path)


def serving_c(facts: Facts) -> Finding | None:
    """Temperature of the beer at the last tasting that notes it, else as served."""
    tasted = [
        (resolved(facts.record, tasting.when), index, tasting.at)
        for index, tasting in enumerate(facts.record.tastings)
        if isinstance(tasting.at, Reading)
    ]
    served = facts.record.serving.at
    if tasted:
        _, index, reading = max(
            tasted, key=lambda one: (one[0].timestamp() if one[0] else float("-inf"), one[1])
        )
        says = f"tasted at {show(reading, Field.TEMPERATURE)}"
        band = facts.read(reading, THERMOMETER)
        return facts.number("serving_c", band, says, ("tastings", index, "at"))
    if isinstance(served, Reading):
        says = f"served at {show(served, Field.TEMPERATURE)}"
        band = facts.read(served, "store_error")
        return facts.number("serving_c", band, says, ("serving", "at"))
    return None
