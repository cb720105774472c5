"""The pages of `batch check` and `batch show`."""

from rich.console import Console
from rich.text import Text

from diagnose.answers import (
    BatchAnswer,
    BatchCheck,
    IonLine,
    MeasureLine,
    OpenMeasure,
    SaltLine,
    WaterAnswer,
    WaterPart,
)
from diagnose.report.cautions import print_cautions
from diagnose.report.strips import hanging, heading
from diagnose.units.rounding import figures


def print_batch_check(console: Console, answer: BatchCheck) -> None:
    """A record that could be read; cautions come first."""
    print_cautions(console, answer.cautions)
    console.print(Text(f"{answer.batch}: {answer.entries} entries read, nothing impossible."))
    _print_odd(console, answer)


def print_batch(console: Console, answer: BatchAnswer) -> None:
    """A record with its measures; cautions come first."""
    console.print(Text(answer.batch, style="bold"), Text(f"({answer.beer})"))
    print_cautions(console, answer.cautions)
    heading(console, "As written, and as read")
    for entry in answer.entries:
        same = entry.read_as.casefold() == entry.typed.casefold()
        text = entry.typed if same else f"{entry.typed}  =  {entry.read_as}"
        hanging(console, f"{entry.line:>4} {entry.key}:", text, indent=0)
    heading(console, "What it comes to")
    for measure in answer.measures:
        hanging(console, f"{measure.name}:", _measured(measure))
        hanging(console, "", _worked_out(measure), indent=4)
    if answer.water is not None:
        _print_water(console, answer.water)
    _print_open(console, answer.open_measures)
    _print_odd(console, answer)
    if answer.sources:
        heading(console, "Sources of the formulas and their constants")
        for source in answer.sources:
            hanging(console, f"[{source.id}]", source.citation, indent=0)


def _worked_out(measure: MeasureLine) -> str:
    """How the measure came about: in words, the formula, its sources, and the place."""
    sources = f" [{', '.join(measure.sources)}]" if measure.sources else ""
    return f"{measure.says}; {measure.formula}{sources} ({measure.where})"


def _print_odd(console: Console, answer: BatchAnswer | BatchCheck) -> None:
    if answer.odd_entries:
        heading(console, "Look at these again")
        for odd in answer.odd_entries:
            hanging(console, "-", f"{odd.place}: {odd.text}")


def _print_open(console: Console, measures: tuple[OpenMeasure, ...]) -> None:
    wanting = [one for one in measures if one.closed_by]
    if wanting:
        heading(console, "Open, and what would close it")
        for one in wanting:
            hanging(console, f"{one.name}:", _listed(one.closed_by))
    idle = [one.name for one in measures if not one.closed_by]
    if idle:
        heading(console, "No place in this batch")
        for name in idle:
            hanging(console, "-", name)


def _listed(entries: tuple[str, ...]) -> str:
    return " and ".join([", ".join(entries[:-1]), entries[-1]] if entries[1:] else entries)


def _measured(measure: MeasureLine) -> str:
    if measure.value is not None:
        return measure.value.replace("_", " ")
    if measure.mid is None or measure.low is None or measure.high is None:
        return "outside what the model covers"
    mid, low, high = figures((measure.mid, measure.low, measure.high))
    unit = "" if measure.unit == "-" else f" {measure.unit}"
    return f"{mid}{unit}" if low == high else f"{mid}{unit} ({low} to {high})"


def _print_water(console: Console, water: WaterAnswer) -> None:
    heading(console, "Water")
    for source in water.sources:
        hanging(console, "-", source)
    for salt in water.salts:
        _print_salt(console, salt)
    for part in water.parts:
        hanging(console, f"{_named(part)}:", _part(part))
    for remark in water.remarks:
        hanging(console, "-", remark)


def _print_salt(console: Console, salt: SaltLine) -> None:
    where = f" into the {salt.into}" if salt.into else ""
    of_all = " in all" if salt.into and salt.spread_over != salt.into else ""
    litres = f" ({salt.litres:.3g} L{of_all})" if salt.litres is not None else ""
    hanging(console, "-", f"{salt.amount} {salt.salt}{where}{litres}")
    for form in salt.forms:
        ions = ", ".join(f"{ion} {value:.0f}" for ion, value in form.ions.items())
        hanging(console, f"{form.form}:", f"adds {ions} mg/L", indent=4)
    if salt.scale_error_percent is not None:
        error = f"error up to {salt.scale_error_percent:.0f} %"
        advice = f"; {salt.advice}" if salt.advice else ""
        hanging(console, "scale:", f"{error}{advice}", indent=4)


def _named(part: WaterPart) -> str:
    litres = f" ({part.litres:.3g} L)" if part.litres is not None else ""
    return f"{part.part}{litres}"


def _part(part: WaterPart) -> str:
    known = [_ranged(ion) for ion in part.ions if ion.mid is not None]
    unknown = [ion.name for ion in part.ions if ion.mid is None]
    text = f"{', '.join(known)} mg/L"
    if part.residual_alkalinity.mid is not None:
        text += f"; {_ranged(part.residual_alkalinity)} {part.residual_alkalinity.unit}"
    else:
        unknown.append(part.residual_alkalinity.name)
    return f"{text}; not known: {', '.join(unknown)}" if unknown else text


def _ranged(ion: IonLine) -> str:
    numbers = [f"{edge:.0f}" for edge in (ion.mid, ion.low, ion.high) if edge is not None]
    mid, low, high = ("0" if number == "-0" else number for number in numbers)
    return f"{ion.name} {mid}" if low == high else f"{ion.name} {mid} ({low} to {high})"
