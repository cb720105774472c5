"""Units to C, SG and bar: as named, and by range where no unit is named."""

import numpy as np

from diagnose.batch.probe.figures import Figures
from diagnose.batch.probe.flaws import ALWAYS_FAULTS, FAULT_UNLESS_THOUSANDS, PERHAPS_C
from diagnose.batch.probe.hampel import hampel_spikes
from diagnose.batch.probe.log import FloatArray, Note, Understood
from diagnose.batch.probe.lookup import extremes, one_of
from diagnose.batch.probe.middle import median
from diagnose.errors import Fault, UnusableInput
from diagnose.units import BAR_PER_KPA, BAR_PER_PSI, celsius_from_kelvin, gravity_from_plato

# Judgement: beer is no colder than -5 C and, as yeast goes, no warmer than 45 C; in Fahrenheit it
# is no colder than 25 F (-4 C) and below 120 F. Readings all from 25 to 45 can be both: asked for.
CELSIUS_RANGE = (-5.0, 45.0)
FAHRENHEIT_RANGE = (25.0, 120.0)
# Judgement: what a label would have to be wrong for.
LABEL_C_MEDIAN = 45.0
LABEL_F_MEDIAN = 25.0
# Common practice: SG as 1.052 or 1052; points or degrees Plato otherwise.
SG_RANGE = (0.900, 1.300)
THOUSANDS_RANGE = (900.0, 1300.0)
PLATO_HIGHEST = 32.0
# Judgement: one reading in twenty at either end may be wild.
MIDDLE = (0.05, 0.95)
# What may be no reading is no reading to judge a column by; 185 F is 85 C.
NO_READINGS = (*ALWAYS_FAULTS, FAULT_UNLESS_THOUSANDS, *PERHAPS_C, 185.0)
FAHRENHEIT_FLOOR = 1.8

BAR_IN = {"bar": 1.0, "mbar": 0.001, "kPa": BAR_PER_KPA, "psi": BAR_PER_PSI}


def telling(values: FloatArray) -> FloatArray:
    """The readings a unit may be judged by: no fault values, no spikes."""
    said = _said(values)
    spikes = hampel_spikes(said, floor=FAHRENHEIT_FLOOR)
    return said[~spikes] if spikes.any() else said


def _said(values: FloatArray) -> FloatArray:
    """The readings that are no fault values."""
    kept = np.isfinite(values) & ~one_of(values, NO_READINGS)
    return values if kept.all() else values[kept]


def settle_temperature_unit(
    column: Figures, *, answer: str | None, line: int
) -> tuple[Understood | None, tuple[Note, ...]]:
    """The unit of one temperature column; None when the range leaves it open.

    Args:
        column: the numbers as written.
        answer: "C" or "F" as the reader says, which goes before the header.
        line: the file's first line of readings.
    """
    labelled = column.unit if column.unit in ("C", "F", "K") else ""
    if answer is not None:
        notes: tuple[Note, ...] = ()
        if labelled and labelled != answer:
            text = f"{column.header!r} says {labelled}; read as {answer}, as answered"
            notes = (Note("warn", text, line),)
        return Understood(answer, "as answered", certain=True), notes
    if labelled:
        return Understood(labelled, "named in the file", certain=True), _doubt(column, line)
    return _by_range(telling(column.values)), ()


def refuse_temperature(column: Figures, name: str, line: int) -> UnusableInput:
    """The refusal of a column whose numbers are possible in C and in F, with both readings."""
    usual = telling(column.values)
    low, high = float(usual.min()), float(usual.max())
    as_c = to_celsius(np.array([low, high]), "F")
    found = (
        f"temperatures from {low:.1f} to {high:.1f} without a unit: read as C they stand, "
        f"read as F they are {as_c[0]:.1f} to {as_c[1]:.1f} C"
    )
    key = column.header or f"column {column.at + 1}"
    wanted = "an answer: temperature unit C or F (probe --unit; --save-profile keeps it)"
    return UnusableInput(Fault(name, line, key, found, wanted))


def settle_gravity_unit(column: Figures, line: int) -> tuple[Understood, tuple[Note, ...]]:
    """The unit of a gravity column: SG, points (1052 or 52), Plato or Brix."""
    said = _said(column.values)
    low, high = extremes(said)
    if not (SG_RANGE[0] <= low and high <= SG_RANGE[1]):
        low, high = np.quantile(said, MIDDLE) if said.size else (np.nan, np.nan)
    if SG_RANGE[0] <= low and high <= SG_RANGE[1] and column.unit not in ("P", "Bx", "points"):
        return Understood("SG", f"values from {low:.3f} to {high:.3f}", certain=True), ()
    if THOUSANDS_RANGE[0] <= low and high <= THOUSANDS_RANGE[1]:
        return Understood("SG x 1000", f"values from {low:.0f} to {high:.0f}", certain=True), ()
    if column.unit == "Bx":
        text = "Brix was read as Plato; a refractometer reads too high once there is alcohol"
        return Understood("Bx", "named in the file", certain=True), (Note("warn", text, line),)
    if column.unit in ("P", "points"):
        return Understood(column.unit, "named in the file", certain=True), ()
    if said.size and float(said.max()) > PLATO_HIGHEST:
        return Understood("points", "values above 32 that are no SG", certain=False), ()
    text = f"{column.header or 'gravity'!r} holds no SG; read as degrees Plato. Is it?"
    return Understood("P", "values below 32 that are no SG", certain=False), (
        Note("ask", text, line),
    )


def to_celsius(values: FloatArray, unit: str) -> FloatArray:
    """Degrees of `unit` (C, F, K) in [C]."""
    if unit == "F":
        # Bit for bit as the history turns them back into the tenths that were logged.
        return (values - 32.0) / 1.8
    return celsius_from_kelvin(values) if unit == "K" else values


def to_sg(values: FloatArray, unit: str) -> FloatArray:
    """Gravities of `unit` (SG, SG x 1000, points, P, Bx) in [SG].

    Source: as for `gravity_from_plato`; definitions.
    """
    if unit == "SG x 1000":
        return values / 1000.0
    if unit == "points":
        return 1.0 + values / 1000.0
    if unit in ("P", "Bx"):
        return gravity_from_plato(values)
    return values


def to_bar(values: FloatArray, unit: str) -> FloatArray:
    """Pressures of `unit` in [bar]; left as they are when the unit is not known."""
    return values * BAR_IN.get(unit, 1.0)


def _by_range(usual: FloatArray) -> Understood | None:
    if not usual.size:
        return Understood("C", "no reading to judge a unit by", certain=False)
    lowest, highest = float(usual.min()), float(usual.max())
    span = f"no unit named; all between {lowest:.1f} and {highest:.1f}"
    celsius = CELSIUS_RANGE[0] <= lowest and highest <= CELSIUS_RANGE[1]
    fahrenheit = FAHRENHEIT_RANGE[0] <= lowest and highest <= FAHRENHEIT_RANGE[1]
    if celsius and not fahrenheit:
        why = f"{span}; {lowest:.1f} F would be frozen"
        return Understood("C", why, certain=False)
    if fahrenheit and not celsius:
        return Understood("F", f"{span}; {highest:.1f} C would be too hot for beer", certain=False)
    return None


def _doubt(column: Figures, line: int) -> tuple[Note, ...]:
    """A question when a labelled unit hardly fits the values."""
    lowest, highest = extremes(column.values)
    if not (lowest < LABEL_F_MEDIAN if column.unit == "F" else highest > LABEL_C_MEDIAN):
        return ()
    usual = telling(column.values)
    half = median(usual) if usual.size else float("nan")
    name = repr(column.header)
    if column.unit == "C" and half > LABEL_C_MEDIAN:
        text = f"{name} says C, but half its values are above {LABEL_C_MEDIAN:.0f}. Is it F?"
    elif column.unit == "F" and half < LABEL_F_MEDIAN:
        text = f"{name} says F, but half its values are below {LABEL_F_MEDIAN:.0f}. Is it C?"
    else:
        return ()
    return (Note("ask", text, line),)
