"""Measures of every water that touched wort, beer or kit."""

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Water
from diagnose.evidence.brewing_water import ion_mg_per_l, salts_mg_per_l
from diagnose.evidence.facts import Facts, band_of, point
from diagnose.evidence.finding import Finding
from diagnose.process import Band
from diagnose.process.chlorine import USUAL_BY_DISINFECTANT
from diagnose.units import Reading

_PURE = ("distilled", "reverse osmosis", "rain")
_FULLY_REMOVES = {"metabisulfite", "ascorbic acid", "carbon filter"}
_REMOVES_CHLORINE_ONLY = {"boiled", "stood overnight"}
_WORST_FIRST = ("chloramine", "chlorine", "none")


def water_disinfectant(facts: Facts) -> Finding | None:
    """The worst disinfectant in any water used."""
    known = [(_disinfectant(water), index) for index, water in enumerate(facts.record.water)]
    told = [(word, index) for word, index in known if word is not None]
    if not told:
        return None
    word, index = min(told, key=lambda one: _WORST_FIRST.index(one[0]))
    if word == "none" and len(told) < len(known):
        return None
    says = "no disinfectant in the water" if word == "none" else f"the water carries {word}"
    return facts.word("water_disinfectant", word, says, ("water", index, "disinfectant"))


def _disinfectant(water: Water) -> str | None:
    if isinstance(water.disinfectant, str):
        return water.disinfectant
    return "none" if water.source in _PURE else None


def all_undosed(facts: Facts) -> bool:
    """Whether every water is known to carry no disinfectant."""
    carried = {_disinfectant(water) for water in facts.record.water}
    return carried == {"none"}


def disinfectant_treated(facts: Facts) -> Finding | None:
    """Whether every disinfected water was treated so that it helps."""
    waters = [
        (_is_treated(water), index)
        for index, water in enumerate(facts.record.water)
        if _disinfectant(water) in ("chlorine", "chloramine")
    ]
    known = [(treated, index) for treated, index in waters if treated is not None]
    states = {treated for treated, _ in known}
    if not known or (len(known) < len(waters) and len(states) == 1):
        return None
    value = "part" if len(states) > 1 else "yes" if states == {True} else "no"
    says = {
        "yes": "every disinfected water was treated",
        "part": "some disinfected water was treated and some was not",
        "no": "disinfected water was used as it came",
    }[value]
    return facts.word("disinfectant_treated", value, says, ("water", known[-1][1], "treatment"))


def _is_treated(water: Water) -> bool | None:
    if isinstance(water.treatment, NotLogged):
        return None
    if water.treatment in _FULLY_REMOVES:
        return True
    return water.treatment in _REMOVES_CHLORINE_ONLY and water.disinfectant == "chlorine"


def water_chlorine_mg_per_l(facts: Facts) -> Finding | None:
    """Disinfectant left in the worst water, measured or as such a supply usually carries."""
    waters = facts.record.water
    doses = [
        (dose, index)
        for index, water in enumerate(waters)
        if (dose := _chlorine(facts, water)) is not None
    ]
    if not doses:
        return None
    band, index = max(doses, key=lambda one: one[0].mid)
    if band.high == 0.0 and len(doses) < len(waters):
        return None
    water = waters[index]
    use = f" ({water.used_for})" if isinstance(water.used_for, str) else ""
    if band.high == 0.0:
        says = f"no chlorine left in the water{use}"
    else:
        says = f"about {band.mid:.1f} mg/L of chlorine in the worst water{use}"
    return facts.number("water_chlorine_mg_per_l", band, says, ("water", index))


def _chlorine(facts: Facts, water: Water) -> Band | None:
    disinfectant, treated = _disinfectant(water), _is_treated(water)
    if treated:
        return point(0.0)
    if isinstance(water.chlorine, Reading):
        return facts.read(water.chlorine, "chlorine_test_error").kept_within(0.0, 20.0)
    if disinfectant is None or (treated is None and disinfectant != "none"):
        return None
    if disinfectant == "none":
        return point(0.0)
    return facts.constants[USUAL_BY_DISINFECTANT[disinfectant]]


def _ion(facts: Facts, ion: str) -> Finding | None:
    """An ion of the water with its salts; open where the supply's own share is not known."""
    band, added = ion_mg_per_l(facts, ion), salts_mg_per_l(facts, ion, "whole brew")
    if band is None or added is None:
        return None
    says = f"about {band.mid:.0f} mg/L of {ion} in the brewing water"
    if added.mid > 0.0:
        says += f", {added.mid:.0f} of it from salts"
    return facts.number(f"{ion}_mg_per_l", band, says, ("water",))


def sulfate_mg_per_l(facts: Facts) -> Finding | None:
    """Sulfate in the brewing water."""
    return _ion(facts, "sulfate")


def chloride_mg_per_l(facts: Facts) -> Finding | None:
    """Chloride in the brewing water."""
    return _ion(facts, "chloride")


def sodium_mg_per_l(facts: Facts) -> Finding | None:
    """Sodium in the brewing water."""
    return _ion(facts, "sodium")


def iron_mg_per_l(facts: Facts) -> Finding | None:
    """Iron in the worst water, as reported."""
    reported = [
        (water.iron, index)
        for index, water in enumerate(facts.record.water)
        if isinstance(water.iron, Reading)
    ]
    if not reported:
        return None
    reading, index = max(reported, key=lambda one: one[0].value)
    says = f"{reading.typed} of iron in the water"
    return facts.number("iron_mg_per_l", band_of(reading), says, ("water", index, "iron"))
