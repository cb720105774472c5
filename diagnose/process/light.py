"""Light on hopped beer: brightness, time and glass in one dose."""

from diagnose.process.validity import require_within

# Which constant holds the brightness, by the record's word for the light.
BRIGHTNESS_BY_LIGHT = {
    "dark": "light_dark",
    "room light": "light_room",
    "shop light": "light_shop",
    "daylight shade": "light_shade",
    "direct sun": "light_sun",
}
# Which constant holds what the glass lets through, by its colour; "none" is steel, tin or a lid.
FACTOR_BY_GLASS = {
    "clear": "glass_clear",
    "green": "glass_green",
    "brown": "glass_brown",
    "none": "glass_none",
}


def light_dose_klux_h(*, brightness_lux: float, hours: float, glass_factor: float) -> float:
    """Light that reached the beer.

    Args:
        brightness_lux: brightness at the glass [lux], see `BRIGHTNESS_BY_LIGHT`.
        hours: time in that light [h].
        glass_factor: share of the harmful light that comes through [-], see `FACTOR_BY_GLASS`.

    Returns:
        Dose [klux h]; below 1.5 nothing, above 5 a fault is likely.

    Raises:
        OutsideValidity: a brightness beyond full sun, a share beyond 0 to 1, or no time.

    Source: common practice, no source; the scale is set by the quoted five minutes of sun.
    """
    require_within(brightness_lux, (0.0, 150_000.0), "light of lux")
    require_within(hours, (0.0, 1e5), "light for h")
    require_within(glass_factor, (0.0, 1.0), "a glass that lets through a share of")
    return brightness_lux * hours * glass_factor / 1000
