"""Bitterness of the kettle hops against the gravity of the beer."""

from collections.abc import Callable, Mapping

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Hop
from diagnose.evidence.facts import (
    BATCH_VOLUME,
    HYDROMETER,
    Facts,
    band_of,
    band_times,
    covered,
    over,
    point,
)
from diagnose.evidence.finding import ClassFinding, Finding
from diagnose.evidence.measures.grist import has_extract
from diagnose.process import Band
from diagnose.process.bitterness import BOIL_SG, STAND_C, HopCharge, bitterness_ibu
from diagnose.process.bitterness import bitterness_ratio as ratio_of
from diagnose.units import MINUTES_PER_HOUR, Reading

# Wort boiled stronger than the beer began is said so from here on; judgement.
_MUCH_STRONGER_SG = 0.010


def bitterness_ratio(facts: Facts) -> Finding | None:
    """Calculated bitterness over gravity points."""
    volume, original = facts.record.volume, facts.record.gravity.original
    charges = _charges(facts)
    if charges is None or isinstance(volume, NotLogged) or isinstance(original, NotLogged):
        return None
    stronger = _boil_sg(facts, original, volume)
    band = facts.model(
        _model_of(charges),
        original_sg=facts.read(original, HYDROMETER),
        stronger_sg=stronger,
        volume_l=facts.read_times(volume, BATCH_VOLUME),
        **_stand_c(facts),
        **{f"{key}_{at}": one for at, charge in enumerate(charges) for key, one in charge.items()},
    )
    points = 1000.0 * (original.value - 1.0)
    says = f"about {band.mid * points:.0f} IBU at {original.typed}, {band.mid:.2f} to a point"
    if stronger.mid > _MUCH_STRONGER_SG:
        says += f" (boiled at about {original.value + stronger.mid:.3f})"
    return facts.number("bitterness_ratio", band, says, ("recipe", "hops"))


def _model_of(charges: list[dict[str, Band]]) -> Callable[..., float]:
    """Bitterness over gravity points, of so many charges."""

    def model(
        *,
        constants: Mapping[str, float],
        original_sg: float,
        stronger_sg: float,
        volume_l: float,
        **of_hops: float,
    ) -> float:
        hops = [
            HopCharge(*(of_hops[f"{entry}_{index}"] for entry in charge))
            for index, charge in enumerate(charges)
        ]
        ibu = bitterness_ibu(
            hops,
            wort_sg=min(original_sg + stronger_sg, BOIL_SG[1]),
            volume_l=volume_l,
            constants=constants,
            stand_c=of_hops.get("stand_c"),
        )
        return ratio_of(ibu, original_sg)

    return model


def _boil_sg(facts: Facts, original: Reading, volume: Reading) -> Band:
    """How much stronger the wort was in the kettle than in the fermenter [SG].

    Extract may have gone in late, so with it the boil may have been as thin as the batch.
    """
    after = facts.record.boil.volume_after
    if not isinstance(after, Reading):
        return point(0.0)
    times = over(volume, after)
    gravity = original.value - 1.0
    low, mid, high = (gravity * max(edge - 1.0, 0.0) for edge in (times.low, times.mid, times.high))
    told = has_extract(facts)
    all_grain = isinstance(told, ClassFinding) and told.value == "no"
    return Band(low if all_grain else 0.0, mid, high)


def _stand_c(facts: Facts) -> dict[str, Band]:
    """The temperature of the hot stand, where it is noted."""
    at = facts.record.hot_stand.at
    return (
        {"stand_c": covered(facts.read(at, "stand_error"), *STAND_C)}
        if isinstance(at, Reading)
        else {}
    )


def _charges(facts: Facts) -> list[dict[str, Band]] | None:
    """Weight [g], alpha acid [%] and minutes in boil and hot stand of each charge in the kettle."""
    charges = []
    for hop in facts.record.recipe.hops:
        if hop.use == "dry hop":
            continue
        if isinstance(hop.amount, NotLogged) or isinstance(hop.alpha, NotLogged):
            return None
        if isinstance(_time_that_counts(hop), NotLogged):
            return None
        charges.append(
            {
                "hop_g": band_of(hop.amount),
                "alpha_percent": band_of(hop.alpha),
                "boil_minutes": _minutes(hop.boiled),
                "stand_minutes": _minutes(hop.steeped),
            }
        )
    return charges or None


def _minutes(time: Reading | NotLogged) -> Band:
    return band_times(time, MINUTES_PER_HOUR) if isinstance(time, Reading) else point(0.0)


def _time_that_counts(hop: Hop) -> Reading | NotLogged:
    """The time without which a charge says nothing: steeped in a hot stand, else boiled."""
    if hop.use == "hot stand" or (isinstance(hop.use, NotLogged) and hop.steeped):
        return hop.steeped
    return hop.boiled
