"""Carbonation in the package."""

from dataclasses import replace

from diagnose.batch import NotLogged
from diagnose.evidence.facts import Facts, band_of, fall, over, point
from diagnose.evidence.finding import Finding
from diagnose.process import Band
from diagnose.process.carbonation import SUGAR_PER_VOLUME, package_volumes, residual_volumes
from diagnose.units import Field, Reading, show

_USUAL_CELLAR = Band(16.0, 20.0, 24.0)
_GRAVITY_ERROR_POINTS = 1.0
# The models cover no more; what lies beyond them must still be cautioned against.
_MOST_SUGAR_G_PER_L = 100.0
_FINISHED_C, _MOST_POINTS, _LEAST_L = (0.0, 40.0), 100.0, 0.01


def carbonation_volumes(facts: Facts) -> Finding | None:
    """Volumes of gas: as noted, else residual gas, priming and gravity lost in the package.

    A keg without sugar stays open: its gas comes from a cylinder whose pressure is not logged.
    """
    packaging = facts.record.packaging
    if isinstance(packaging.carbonation, Reading):
        says = f"carbonated to {show(packaging.carbonation, Field.CARBONATION)}"
        band = band_of(packaging.carbonation, 0.1)
        return facts.number("carbonation_volumes", band, says, ("packaging", "carbonation"))
    return _primed(facts, "carbonation_volumes", _fermented_on(facts))


def priming_volumes(facts: Facts) -> Finding | None:
    """Gas from fermentation and priming alone, without what fermented on in the package."""
    return _primed(facts, "priming_volumes", Band(0.0, 0.0, 0.0))


def _primed(facts: Facts, measure: str, fermented_on: Band) -> Finding | None:
    sugar, sugar_g_per_l = facts.record.packaging.sugar, _sugar_g_per_l(facts)
    if sugar_g_per_l is None or isinstance(sugar, NotLogged):
        return None
    if sugar == "none" and facts.record.packaging.package not in ("bottle", "cask"):
        return None
    band = facts.model(
        package_volumes,
        residual_volumes=_residual(facts),
        sugar_g_per_l=sugar_g_per_l.kept_within(0.0, _MOST_SUGAR_G_PER_L),
        sugar_g_per_l_per_volume=facts.constants[
            SUGAR_PER_VOLUME["glucose" if sugar == "none" else sugar]
        ],
        unfinished_points=fermented_on,
    )
    says = f"{sugar_g_per_l.mid:.1f} g/L of {sugar} and what fermentation left"
    if fermented_on.mid > 0.0:
        says += f", and {fermented_on.mid:.0f} points fermented later"
    says += f": about {band.mid:.1f} volumes of gas"
    return facts.number(measure, band, says, ("packaging", "sugar_amount"))


def _sugar_g_per_l(facts: Facts) -> Band | None:
    packaging = facts.record.packaging
    volume = packaging.volume if isinstance(packaging.volume, Reading) else facts.record.volume
    if packaging.sugar == "none":
        return Band(0.0, 0.0, 0.0)
    if isinstance(packaging.sugar_amount, NotLogged) or isinstance(volume, NotLogged):
        return None
    # A volume that may be next to nothing must still be cautioned against.
    least_l = max(volume.low, min(volume.value, _LEAST_L))
    strength = over(packaging.sugar_amount, replace(volume, low=least_l))
    return Band(0.95 * strength.low, strength.mid, 1.08 * strength.high)


def _residual(facts: Facts) -> Band:
    """Gas left from fermentation; the warmest beer since it ended decides."""
    fermentation = facts.record.fermentation
    known = [r for r in (fermentation.peak, fermentation.temperature) if isinstance(r, Reading)]
    warmest = band_of(known[0], 2.0) if known else _USUAL_CELLAR
    return facts.model(
        lambda *, constants, warmest_c: residual_volumes(warmest_c, constants),
        warmest_c=warmest.kept_within(*_FINISHED_C),
    )


def _fermented_on(facts: Facts) -> Band:
    """Points of gravity that went in the package after all, and at most may go."""
    gravity = facts.record.gravity
    readings = [r.gravity for r in gravity.readings if isinstance(r.gravity, Reading)]
    if isinstance(gravity.final, NotLogged):
        return Band(0.0, 0.0, _GRAVITY_ERROR_POINTS)
    gone = _points_from(gravity.final, readings[-1]) if readings else point(0.0)
    # What a forced sample still lost may yet ferment in the package.
    limit = gravity.forced_final
    to_go = _points_from(gravity.final, limit) if isinstance(limit, Reading) else point(0.0)
    return Band(gone.low, gone.mid, max(gone.high, to_go.high, _GRAVITY_ERROR_POINTS))


def _points_from(final: Reading, later: Reading) -> Band:
    drop = fall(final, later, _GRAVITY_ERROR_POINTS / 1000.0)
    points = Band(1000.0 * drop.low, 1000.0 * drop.mid, 1000.0 * drop.high)
    return points.kept_within(0.0, _MOST_POINTS)
