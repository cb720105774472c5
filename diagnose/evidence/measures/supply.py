"""Where the brewing water came from and how it was drawn."""

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Water
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.units import Reading

# Water that becomes part of the beer; a starter's is too little to count.
_NOT_WORT = ("starter", "rinse", "sanitiser mix")
_PURE = ("distilled", "reverse osmosis")
# Without volumes the water likeliest to speak in the beer is taken; judgement.
_TELLING_FIRST = ("well", "rain", "spring", "tap", "pure")
_SAYS = {
    "tap": "brewed with tap water",
    "well": "well water in the brew",
    "spring": "brewed with spring water",
    "rain": "brewed with rain water",
    "pure": "brewed with distilled or reverse osmosis water",
}


def water_source(facts: Facts) -> Finding | None:
    """The source of most of the wort's water; any well water makes it a well's."""
    used = [
        (_source(water), water.volume, index)
        for index, water in enumerate(facts.record.water)
        if water.used_for not in _NOT_WORT
    ]
    sources = [source for source, *_ in used if source is not None]
    if "well" in sources:
        value: str | None = "well"
    elif all(isinstance(volume, Reading) for _, volume, _ in used):
        value = _largest(used)
    else:
        # A source nobody noted could be a well.
        whole = len(sources) == len(used)
        value = min(sources, key=_TELLING_FIRST.index, default=None) if whole else None
    if value is None:
        return None
    index = next(index for source, _, index in used if source == value)
    return facts.word("water_source", value, _SAYS[value], ("water", index, "source"))


def _source(water: Water) -> str | None:
    if not isinstance(water.source, str):
        return None
    return "pure" if water.source in _PURE else water.source


def _largest(used: list[tuple[str | None, Reading | NotLogged, int]]) -> str | None:
    litres: dict[str | None, float] = {}
    for source, volume, _ in used:
        if isinstance(volume, Reading):
            litres[source] = litres.get(source, 0.0) + volume.value
    return max(litres, key=lambda source: litres[source], default=None)


def water_through_hose(facts: Facts) -> Finding | None:
    """Whether any water came through a garden hose."""
    words = [water.through_hose for water in facts.record.water]
    if "yes" in words:
        path = ("water", words.index("yes"), "through_hose")
        return facts.word("water_through_hose", "yes", "water drawn through a hose", path)
    if words and all(word == "no" for word in words):
        path = ("water", 0, "through_hose")
        return facts.word("water_through_hose", "no", "no water through a hose", path)
    return None
