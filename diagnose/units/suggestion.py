"""A temperature that makes no sense as written, but does on the other scale."""

from diagnose.units.conversions import celsius_from_fahrenheit, fahrenheit_from_celsius
from diagnose.units.field import Field
from diagnose.units.phrase import read_phrase
from diagnose.units.reading import Reading
from diagnose.units.refusal import Misread
from diagnose.units.vocabulary import units_called


def suggest_other_scale(
    reading: Reading, plausible_low_c: float, plausible_high_c: float
) -> str | None:
    """The question to ask where only the other scale makes sense of a temperature.

    Args:
        reading: a temperature [C] with its typed text.
        plausible_low_c: lowest temperature that makes sense here [C].
        plausible_high_c: highest temperature that makes sense here [C].

    Returns:
        For example "did you mean 68 F (20 C)?" for "68 C" in a fermentation; None where the
        reading is plausible as it stands, or where the other scale is no better.
    """
    if plausible_low_c <= reading.value <= plausible_high_c:
        return None
    scale = _scale_written(reading)
    if not scale:
        return None
    if scale == "C":
        meant_c = celsius_from_fahrenheit(reading.value)
        meant = f"{_short(reading.value)} F ({_short(meant_c)} C)"
    else:
        meant_c = fahrenheit_from_celsius(reading.value)
        meant = f"{_short(meant_c)} C ({_short(fahrenheit_from_celsius(meant_c))} F)"
    return f"did you mean {meant}?" if plausible_low_c <= meant_c <= plausible_high_c else None


def _scale_written(reading: Reading) -> str:
    """The scale in the typed text; "" where it names both, another, or none that fits."""
    try:
        phrase = read_phrase(reading.typed, Field.TEMPERATURE)
    except Misread:
        return ""
    if phrase.words != ("",):
        units = (units_called(word, Field.TEMPERATURE) for word in phrase.words)
        names = {unit.name for found in units for unit in found} & {"C", "F"}
        return names.pop() if len(names) == 1 else ""
    # A bare number was read by the brewer's habit: see which scale gives the value kept.
    number = phrase.bare_numbers[0].decimal
    return "C" if abs(number - reading.value) < 1e-6 else "F"


def _short(temperature: float) -> str:
    return f"{temperature:.1f}".removesuffix(".0")
