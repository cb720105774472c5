"""The brewing water of a record in words: sources, salts in each form, what comes of them."""

from diagnose.answers import IonLine, SaltForm, SaltLine, WaterAnswer, WaterPart
from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Salt, Water
from diagnose.evidence.brewing_water import (
    PARTS,
    Part,
    ion_mg_per_l,
    litres_of,
    residual_alkalinity,
)
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import ClassFinding, Finding
from diagnose.process import Band
from diagnose.process.band import OutsideValidity
from diagnose.process.dosing import (
    GOOD_ENOUGH_PERCENT,
    ions_by_form_mg_per_l,
    scale_error_percent,
    stock_for,
)
from diagnose.process.salts import ION_ATOMS, UNKNOWN_FORMS
from diagnose.units import Field, Reading, show

_CHALK = "calcium carbonate"
_WHOLE: Part = "whole brew"
_IONS = tuple(ION_ATOMS)


def water_of(facts: Facts, has_extract: Finding | None) -> WaterAnswer | None:
    """The water and its salts; None where the record has neither."""
    record = facts.record
    if not record.water and not record.salts:
        return None
    sources = tuple(_source(water) for water in record.water)
    try:
        return _worked_out(facts, has_extract, sources)
    except OutsideValidity as beyond:
        return WaterAnswer(sources=sources, salts=(), parts=(), remarks=(str(beyond),))


def _worked_out(facts: Facts, has_extract: Finding | None, sources: tuple[str, ...]) -> WaterAnswer:
    record = facts.record
    parts = tuple(_part(facts, part) for part in PARTS if _is_told(facts, part))
    return WaterAnswer(
        sources=sources,
        salts=tuple(_salt(facts, index, salt) for index, salt in enumerate(record.salts)),
        parts=tuple(part for part in parts if any(ion.mid is not None for ion in part.ions)),
        remarks=tuple(_remarks(facts, has_extract, parts)),
    )


def _source(water: Water) -> str:
    volume = show(water.volume, Field.VOLUME) if isinstance(water.volume, Reading) else ""
    source = water.source if isinstance(water.source, str) else "source not logged"
    use = f"for {water.used_for}" if isinstance(water.used_for, str) else ""
    ions = [
        f"{ion} {getattr(water, ion).typed}"
        for ion in _IONS
        if isinstance(getattr(water, ion), Reading)
    ]
    head = " ".join(part for part in (volume, source, use) if part)
    return f"{head}: {', '.join(ions)}" if ions else head


def _is_told(facts: Facts, part: Part) -> bool:
    """Whether the record parts the mash or the sparge from the rest."""
    if part == "whole brew":
        return True
    salted = any(salt.into == part for salt in facts.record.salts)
    return salted or any(water.used_for == part for water in facts.record.water)


def _part(facts: Facts, part: Part) -> WaterPart:
    ions = tuple(_ion(ion, ion_mg_per_l(facts, ion, part)) for ion in _IONS)
    alkalinity = _ion("residual alkalinity", residual_alkalinity(facts, part), "ppm as CaCO3")
    litres = _litres_of(facts, part)
    return WaterPart(part=part, litres=litres, ions=ions, residual_alkalinity=alkalinity)


def _litres_of(facts: Facts, part: Part) -> float | None:
    band = litres_of(facts, part)
    return None if band is None else band.mid


def _ion(name: str, band: Band | None, unit: str = "mg/L") -> IonLine:
    if band is None:
        return IonLine(name=name, unit=unit)
    return IonLine(name=name, unit=unit, low=band.low, mid=band.mid, high=band.high)


def _salt(facts: Facts, index: int, salt: Salt) -> SaltLine:
    part = next((one for one in PARTS if one == salt.into), _WHOLE)
    if _litres_of(facts, part) is None:
        part = _WHOLE
    litres = _litres_of(facts, part)
    return SaltLine(
        salt=salt.salt if isinstance(salt.salt, str) else "salt not named",
        amount=salt.amount.typed if isinstance(salt.amount, Reading) else "amount not logged",
        into=salt.into if isinstance(salt.into, str) else "",
        spread_over=part,
        litres=litres,
        forms=_forms(facts, salt, litres),
        scale_error_percent=_scale_error(salt),
        advice=_advice(salt),
        line=facts.batch.document.line(("salts", index)),
    )


def _forms(facts: Facts, salt: Salt, litres: float | None) -> tuple[SaltForm, ...]:
    if isinstance(salt.amount, NotLogged) or isinstance(salt.salt, NotLogged):
        return ()
    if litres is None or salt.salt == _CHALK:
        return ()
    constants = {key: band.mid for key, band in facts.constants.items()}
    by_form = ions_by_form_mg_per_l(
        salt.salt, salt_g=salt.amount.value, water_l=litres, constants=constants
    )
    return tuple(SaltForm(form=form, ions=ions) for form, ions in by_form.items())


def _scale_error(salt: Salt) -> float | None:
    step, amount = salt.scale_step, salt.amount
    if isinstance(step, NotLogged) or isinstance(amount, NotLogged):
        return None
    weighable = step.value > 0.0 and amount.value > 0.0
    return scale_error_percent(amount.value, step.value) if weighable else None


def _advice(salt: Salt) -> str:
    """What to do about a dose too small for its scale."""
    error, step, amount = _scale_error(salt), salt.scale_step, salt.amount
    if error is None or isinstance(step, NotLogged) or isinstance(amount, NotLogged):
        return ""
    if error <= GOOD_ENOUGH_PERCENT or isinstance(salt.salt, NotLogged):
        return ""
    stock = stock_for(salt.salt, salt_g=amount.value, scale_step_g=step.value)
    weighed = f"{stock.salt_g:.3g} g"
    if not stock.soluble:
        return (
            f"it hardly dissolves, so weigh {weighed} on this scale and divide it by eye into "
            f"{stock.salt_g / amount.value:.0f} equal heaps, or weigh it on a finer scale"
        )
    return (
        f"make a stock solution: {weighed} in cold water made up to {stock.made_up_to_ml:.3g} mL; "
        f"{stock.dose_ml:.3g} mL of it hold {amount.value:.3g} g"
    )


def _remarks(facts: Facts, has_extract: Finding | None, parts: tuple[WaterPart, ...]) -> list[str]:
    salts = facts.record.salts
    remarks = []
    if isinstance(has_extract, ClassFinding) and has_extract.value == "yes":
        remarks.append("extract brings its own minerals: amount unknown")
    if any(salt.salt in UNKNOWN_FORMS for salt in salts):
        remarks.append(
            "look on the tub for the form: dihydrate holds a quarter of its weight water"
        )
    if any(salt.salt == _CHALK for salt in salts):
        remarks.append("chalk dissolves only in part, so its range is wide")
    if len(parts) > 1 and any(isinstance(salt.into, NotLogged) for salt in salts):
        remarks.append("where a salt went is not logged: it counts in the whole brew only")
    if any(isinstance(salt.scale_step, NotLogged) for salt in salts):
        taken = 100.0 * (facts.constants["salt_weight_scale"].high - 1.0)
        remarks.append(f"steps of the scale not logged: {taken:.0f} % either way is taken")
    if not facts.record.water:
        remarks.append("no source water logged: what the salts add is known, the total is not")
    return remarks
