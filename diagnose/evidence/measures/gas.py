"""Carbonation in the package."""

from dataclasses import replace
from datetime import timedelta

from diagnose.batch import NotLogged
from diagnose.evidence.facts import HYDROMETER, Facts, fall, over, point, points_of
from diagnose.evidence.finding import Finding
from diagnose.evidence.history import THREE_DAYS, beer_history
from diagnose.process import Band
from diagnose.process.carbonation import (
    FINISHED_C,
    PRIMING_G_PER_L,
    SUGAR_PER_VOLUME,
    UNFINISHED_POINTS,
    package_volumes,
    residual_volumes,
)
from diagnose.units import Field, Reading, show

_A_DAY = timedelta(days=1)
_USUAL_CELLAR = Band(16.0, 20.0, 24.0)
# A volume that may be next to nothing must still be cautioned against.
_LEAST_L = 0.01


def carbonation_volumes(facts: Facts) -> Finding | None:
    """Volumes of gas: as noted, else residual gas, priming and gravity lost in the package.

    A keg without sugar stays open: its gas comes from a cylinder whose pressure is not logged.
    """
    noted = facts.record.packaging.carbonation
    if isinstance(noted, Reading):
        return _as_noted(facts, noted)
    primed = _primed(facts, "carbonation_volumes", _fermented_on(facts))
    return _unfinished(facts) if primed is None else primed


def priming_volumes(facts: Facts) -> Finding | None:
    """Gas from fermentation and priming alone, without what fermented on in the package."""
    return _primed(facts, "priming_volumes", point(0.0))


def _as_noted(facts: Facts, noted: Reading) -> Finding:
    """The gas as noted; at most with what gravity that is left may add in a closed package."""
    says = f"carbonated to {show(noted, Field.CARBONATION)}"
    band = facts.read(noted, "noted_carbonation_error")
    most_points = _fermented_on(facts).high
    # A keg has a relief valve, and one point is no more than the hydrometer may be off.
    if facts.record.packaging.package != "keg" and most_points > _one_point(facts):
        band = _with_gravity(facts, band, Band(0.0, 0.0, most_points))
        says += _may_add(most_points)
    return facts.number("carbonation_volumes", band, says, ("packaging", "carbonation"))


def _unfinished(facts: Facts) -> Finding | None:
    """The gas of a package of which nobody noted gas or sugar, where gravity was left to lose."""
    package, points = facts.record.packaging.package, _fermented_on(facts)
    closed = isinstance(package, str) or facts.timeline.packaged is not None
    enough = points.high >= facts.constants["points_left_that_warn"].mid
    if package == "keg" or not closed or not enough:
        return None
    usual = facts.constants["usual_package_volumes"]
    says = f"gas and sugar not noted, {usual.mid:.1f} volumes assumed" + _may_add(points.high)
    band = _with_gravity(facts, usual, points)
    return facts.number("carbonation_volumes", band, says, ("packaging",))


def _with_gravity(facts: Facts, volumes: Band, points: Band) -> Band:
    return facts.model(
        package_volumes,
        residual_volumes=volumes,
        sugar_g_per_l=point(0.0),
        sugar_g_per_l_per_volume=facts.constants[SUGAR_PER_VOLUME["glucose"]],
        unfinished_points=points,
    )


def _may_add(points: float) -> str:
    return f", and up to {points:.0f} points of gravity that fermented, or may, in the package"


def _primed(facts: Facts, measure: str, fermented_on: Band) -> Finding | None:
    sugar, sugar_g_per_l = facts.record.packaging.sugar, _sugar_g_per_l(facts)
    if sugar_g_per_l is None or isinstance(sugar, NotLogged):
        return None
    if sugar == "none" and facts.record.packaging.package not in ("bottle", "cask"):
        return None
    band = facts.model(
        package_volumes,
        residual_volumes=_residual(facts),
        sugar_g_per_l=sugar_g_per_l.kept_within(*PRIMING_G_PER_L),
        sugar_g_per_l_per_volume=facts.constants[
            SUGAR_PER_VOLUME["glucose" if sugar == "none" else sugar]
        ],
        unfinished_points=fermented_on,
    )
    says = f"{sugar_g_per_l.mid:.1f} g/L of {sugar} and what fermentation left"
    if fermented_on.mid > 0.0:
        says += f", and {fermented_on.mid:.0f} points fermented later"
    says += f": about {band.mid:.1f} volumes of gas"
    if fermented_on.high > fermented_on.mid + _one_point(facts):
        says += _may_add(fermented_on.high)
    return facts.number(measure, band, says, ("packaging", "sugar_amount"))


def _sugar_g_per_l(facts: Facts) -> Band | None:
    packaging = facts.record.packaging
    volume = packaging.volume if isinstance(packaging.volume, Reading) else facts.record.volume
    if packaging.sugar == "none":
        return point(0.0)
    if isinstance(packaging.sugar_amount, NotLogged) or isinstance(volume, NotLogged):
        return None
    least_l = max(volume.low, min(volume.value, _LEAST_L))
    strength = over(packaging.sugar_amount, replace(volume, low=least_l))
    times = facts.constants["priming_strength_scale"]
    return Band(times.low * strength.low, strength.mid, times.high * strength.high)


def _residual(facts: Facts) -> Band:
    """Gas left from fermentation; the warmest beer since it ended decides."""
    warmest = _followed_c(facts) or _noted_c(facts)
    return facts.model(
        lambda *, constants, warmest_c: residual_volumes(warmest_c, constants),
        warmest_c=warmest.kept_within(*FINISHED_C),
    )


def _noted_c(facts: Facts) -> Band:
    fermentation = facts.record.fermentation
    known = [r for r in (fermentation.peak, fermentation.temperature) if isinstance(r, Reading)]
    return facts.read(known[0], "noted_beer_error") if known else _USUAL_CELLAR


def _followed_c(facts: Facts) -> Band | None:
    """The warmest beer [C] between the end of fermentation and the package, by log or steps."""
    timeline = facts.timeline
    pitched, packaged, crashed = timeline.pitched, timeline.packaged, timeline.crashed
    if pitched is None or packaged is None:
        return None
    ended = timeline.finished
    start, end = (ended - _A_DAY if ended else pitched + THREE_DAYS), packaged
    if crashed is not None:
        # What comes after a crash is colder; the log may have been taken off by then.
        start, end = min(start, crashed - _A_DAY), min(end, crashed + _A_DAY)
    history = beer_history(facts, max(start, pitched), end)
    if history is None or history.path[-1] == "temperature":
        return None
    warmest_c, shift = float(history.beer_c.max()), history.shift_c
    return Band(warmest_c + shift.low, warmest_c + shift.mid, warmest_c + shift.high)


def _fermented_on(facts: Facts) -> Band:
    """Points of gravity that went in the package after all, and at most may go."""
    gravity = facts.record.gravity
    readings = [r.gravity for r in gravity.readings if isinstance(r.gravity, Reading)]
    if isinstance(gravity.final, NotLogged):
        return Band(0.0, 0.0, _one_point(facts))
    gone = _points_from(facts, gravity.final, readings[-1]) if readings else point(0.0)
    # What a forced sample still lost may yet ferment in the package.
    limit = gravity.forced_final
    to_go = _points_from(facts, gravity.final, limit) if isinstance(limit, Reading) else point(0.0)
    return Band(gone.low, gone.mid, max(gone.high, to_go.high, _one_point(facts)))


def _points_from(facts: Facts, final: Reading, later: Reading) -> Band:
    gone = fall(final, later, facts.constants[HYDROMETER])
    return points_of(gone).kept_within(*UNFINISHED_POINTS)


def _one_point(facts: Facts) -> float:
    """What a hydrometer may be off, in points of gravity."""
    return points_of(facts.constants[HYDROMETER]).high
