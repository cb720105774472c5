"""What the grist should give: sugar in the extract, mash efficiency, enzyme power."""

from diagnose.batch.ingredients import Fermentable
from diagnose.evidence.facts import (
    BATCH_VOLUME,
    HYDROMETER,
    Facts,
    band_of,
    band_times,
    point,
    sum_of,
)
from diagnose.evidence.finding import Finding
from diagnose.evidence.measures.additions import side_of
from diagnose.evidence.measures.unfermentable import is_sweetener, sweetener_points_l
from diagnose.process import Band
from diagnose.process.mash import diastatic_power_lintner
from diagnose.units import GRAMS_PER_KILOGRAM, Field, Reading, show

# Extract that a kilogram holds [kg]; common practice, no source. Grain gives it through the mash.
EXTRACT_KG_PER_KG = {
    "sugar": 1.0,
    "honey": 0.8,
    "dry extract": 0.97,
    "liquid extract": 0.8,
    "fruit": 0.1,
}
_EXTRACT_OF_GRAIN, _USUAL_EFFICIENCY = 0.78, Band(0.65, 0.75, 0.85)
# Full yield [gravity points x L/kg]; common practice, no source, 5 % either way.
_GRAIN_POINTS_L_PER_KG = {
    **dict.fromkeys(("base malt", "lager malt", "wheat malt", "rye malt"), 300.0),
    **dict.fromkeys(("munich malt", "smoked malt"), 290.0),
    **dict.fromkeys(("flaked grain", "unmalted grain"), 280.0),
    **dict.fromkeys(("crystal malt", "roasted malt"), 270.0),
}
OTHER_POINTS_L_PER_KG = {
    "sugar": 384.0,
    "dry extract": 370.0,
    "liquid extract": 305.0,
    "honey": 290.0,
}
YIELD_SCALE = Band(0.95, 1.0, 1.05)
# With less grain than this the sum says more of the extract's yield than of the mash; judgement.
_LEAST_GRAIN_SHARE = 1.0 / 3.0
# Enzyme power by kind [degrees Lintner]; common practice, no source.
_POWER_LINTNER = {
    "lager malt": Band(100.0, 120.0, 140.0),
    "base malt": Band(45.0, 70.0, 100.0),
    "wheat malt": Band(60.0, 95.0, 130.0),
    "rye malt": Band(60.0, 95.0, 130.0),
    "smoked malt": Band(40.0, 65.0, 90.0),
    "munich malt": Band(20.0, 35.0, 50.0),
    **dict.fromkeys(
        ("crystal malt", "roasted malt", "flaked grain", "unmalted grain"), Band(0.0, 0.0, 0.0)
    ),
}
# Grain that is steeped as often as mashed: by itself it shows no mash.
_STEEPED = ("crystal malt", "roasted malt")
_SUGARS = ("sugar", "honey")
_PATH = ("recipe", "fermentables")


def _weighed_kg(facts: Facts) -> list[tuple[str, float, Fermentable]] | None:
    """Kind, weight [kg] and line of everything in the grist; None where one is missing."""
    lines = [
        (item.kind, item.amount.value / GRAMS_PER_KILOGRAM, item)
        for item in facts.record.recipe.fermentables
        if isinstance(item.kind, str) and isinstance(item.amount, Reading)
    ]
    return lines if 0 < len(lines) == len(facts.record.recipe.fermentables) else None


def _kg_by_kind(lines: list[tuple[str, float, Fermentable]]) -> dict[str, Band]:
    """Weight of each kind [kg], with the doubt of what was weighed."""
    weighed: dict[str, list[Band]] = {}
    for kind, _, item in lines:
        if isinstance(item.amount, Reading):
            weighed.setdefault(kind, []).append(band_times(item.amount, 1.0 / GRAMS_PER_KILOGRAM))
    return {kind: sum_of(bands) for kind, bands in weighed.items()}


def sugar_share_percent(facts: Facts) -> Finding | None:
    """Extract from sugar and honey over the extract of everything fermentable."""
    kinds = [item.kind for item in facts.record.recipe.fermentables]
    if kinds and all(isinstance(kind, str) and kind not in _SUGARS for kind in kinds):
        says = "no sugar or honey in the grist"
        return facts.number("sugar_share_percent", point(0.0), says, _PATH)
    lines = _weighed_kg(facts) or []
    # Lactose and its like stand among the sugars and feed no yeast.
    fed_kg = _kg_by_kind([one for one in lines if not is_sweetener(one[2])])
    if not sum(band.low for band in fed_kg.values()):
        return None

    def share(*, efficiency: float, **kg: float) -> float:
        grain = _EXTRACT_OF_GRAIN * efficiency
        extract = {kind: kg[kind] * EXTRACT_KG_PER_KG.get(kind, grain) for kind in kg}
        return 100.0 * sum(extract.get(kind, 0.0) for kind in _SUGARS) / sum(extract.values())

    band = facts.model(share, efficiency=_USUAL_EFFICIENCY, **fed_kg)
    says = f"about {band.mid:.0f} % of the extract is sugar or honey"
    return facts.number("sugar_share_percent", band, says, _PATH)


def mash_efficiency_percent(facts: Facts) -> Finding | None:
    """Extract that reached the fermenter over what the grain could give."""
    volume, original = facts.record.volume, facts.record.gravity.original
    yields, sweet = _full_points_l(facts), sweetener_points_l(facts)
    if not isinstance(volume, Reading) or not isinstance(original, Reading):
        return None
    if yields is None or sweet is None:
        return None
    from_grain, from_others = yields

    def efficiency(
        *, original_sg: float, volume_l: float, scale: float, sweet_points_l: float
    ) -> float:
        got = 1000.0 * (original_sg - 1.0) * volume_l - scale * from_others - sweet_points_l
        return 100.0 * max(got, 0.0) / (scale * from_grain)

    band = facts.model(
        efficiency,
        original_sg=facts.read(original, HYDROMETER),
        volume_l=facts.read_times(volume, BATCH_VOLUME),
        scale=_scale(facts),
        sweet_points_l=sweet,
    )
    says = (
        f"{show(volume, Field.VOLUME)} at {original.typed}: about {band.mid:.0f} % of what the "
        "grain could give"
    )
    return facts.number("mash_efficiency_percent", band, says, ("gravity", "original"))


def _scale(facts: Facts) -> Band:
    """How far the full yield may be off: the malts', and the doubt of their weights [-]."""
    amounts = (item.amount for item in facts.record.recipe.fermentables)
    total = sum_of([band_of(one) for one in amounts if isinstance(one, Reading)])
    return Band(
        YIELD_SCALE.low * total.low / total.mid, 1.0, YIELD_SCALE.high * total.high / total.mid
    )


def _full_points_l(facts: Facts) -> tuple[float, float] | None:
    """What grain, and what extract and sugar less lactose, would give in full [points x L].

    What went in on the cold side came after the gravity was read. None where a line is not known,
    where fruit brings sugar of its own, or where grain is too little of the whole.
    """
    weighed = _weighed_kg(facts)
    if weighed is None:
        return None
    lines = [one for one in weighed if side_of(facts, one[2].added) not in ("cold", "package")]
    if any(kind == "fruit" for kind, *_ in lines):
        return None
    grain = [(kind, kg) for kind, kg, _ in lines if kind in _GRAIN_POINTS_L_PER_KG]
    grain_kg = sum(kg for _, kg in grain)
    if not grain_kg or grain_kg < _LEAST_GRAIN_SHARE * sum(kg for _, kg, _ in lines):
        return None
    from_others = sum(
        kg * OTHER_POINTS_L_PER_KG.get(kind, 0.0)
        for kind, kg, item in lines
        if not is_sweetener(item)
    )
    return sum(kg * _GRAIN_POINTS_L_PER_KG[kind] for kind, kg in grain), from_others


def enzyme_power_lintner(facts: Facts) -> Finding | None:
    """Mean enzyme power of the grain in the mash, by weight."""
    lines = _weighed_kg(facts)
    if lines is None or not _was_mashed(facts, [kind for kind, *_ in lines]):
        return None
    kg_by_kind = _kg_by_kind([one for one in lines if one[0] in _POWER_LINTNER])

    def power(**of_malt: float) -> float:
        return diastatic_power_lintner(
            {kind: (of_malt[f"kg {kind}"], of_malt[kind]) for kind in kg_by_kind}
        )

    band = facts.model(
        power,
        **{kind: _POWER_LINTNER[kind] for kind in kg_by_kind},
        **{f"kg {kind}": kg for kind, kg in kg_by_kind.items()},
    )
    says = f"the grain in the mash has about {band.mid:.0f} degrees Lintner of enzyme power"
    return facts.number("enzyme_power_lintner", band, says, _PATH)


def is_unmashed(facts: Facts) -> bool:
    """Whether nothing was mashed: an extract brew, or a grist that is known and holds no mash."""
    kinds = [item.kind for item in facts.record.recipe.fermentables]
    known = [kind for kind in kinds if isinstance(kind, str)]
    told = 0 < len(known) == len(kinds)
    return facts.record.method == "extract" or (told and not _was_mashed(facts, known))


def _was_mashed(facts: Facts, kinds: list[str]) -> bool:
    """Whether grain was mashed; crystal and roast beside extract are but steeped."""
    grain = [kind for kind in kinds if kind in _POWER_LINTNER]
    if not grain or facts.record.method == "extract":
        return False
    has_extract = any(kind.endswith("extract") for kind in kinds)
    return not (has_extract and all(kind in _STEEPED for kind in grain))
