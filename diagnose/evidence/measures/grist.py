"""What the grist says by itself: extract, and the shares of single kinds of malt."""

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Fermentable
from diagnose.evidence.facts import Facts, band_of, point, sum_of
from diagnose.evidence.finding import Finding
from diagnose.process import Band
from diagnose.units import Reading

_EXTRACTS = ("liquid extract", "dry extract")
_HIGH_SHARE, _SOME_SHARE = 0.70, 0.15
_PATH = ("recipe", "fermentables")


def has_extract(facts: Facts) -> Finding | None:
    """Whether any extract went in."""
    kinds = _kinds(facts)
    if any(kind in _EXTRACTS for kind in kinds) or facts.record.method in (
        "extract",
        "part extract",
    ):
        return facts.word("has_extract", "yes", "brewed with extract", _PATH)
    if _all_kinds_known(facts) or facts.record.method == "all grain":
        return facts.word("has_extract", "no", "no extract in the grist", _PATH)
    return None


def extract_form(facts: Facts) -> Finding | None:
    """Liquid, dry or no extract; liquid if both."""
    kinds = _kinds(facts)
    for kind, value in zip(_EXTRACTS, ("liquid", "dry"), strict=True):
        if kind in kinds:
            return facts.word("extract_form", value, f"{kind} in the grist", _PATH)
    if _all_kinds_known(facts):
        return facts.word("extract_form", "none", "no extract in the grist", _PATH)
    return None


def pale_lager_malt_share(facts: Facts) -> Finding | None:
    """How much of the grist is pale lager malt, the malt richest in the precursor of DMS."""
    grist = _dry_grist(facts)
    if not grist or any(isinstance(item.kind, NotLogged) for item in grist):
        return None
    share = share_of(grist, "lager malt")
    if share is None:
        return None
    value = "high" if share >= _HIGH_SHARE else "some" if share >= _SOME_SHARE else "none"
    says = (
        f"{100.0 * share:.0f} % of the grist is pale lager malt" if share else "no pale lager malt"
    )
    return facts.word("pale_lager_malt_share", value, says, _PATH)


def crystal_share_percent(facts: Facts) -> Finding | None:
    """Share of crystal malt in the grist by weight."""
    return _share_percent(facts, "crystal_share_percent", "crystal malt")


def roast_share_percent(facts: Facts) -> Finding | None:
    """Share of roasted malt in the grist by weight."""
    return _share_percent(facts, "roast_share_percent", "roasted malt")


def _share_percent(facts: Facts, measure: str, kind: str) -> Finding | None:
    share = share_of(_dry_grist(facts), kind) if _all_kinds_known(facts) else None
    if share is None:
        return None
    says = f"{100.0 * share:.0f} % of the grist is {kind}" if share else f"no {kind} in the grist"
    return facts.number(measure, _with_doubt(facts, share, kind), says, _PATH)


def _with_doubt(facts: Facts, share: float, kind: str) -> Band:
    """A share [%] with the range that the doubt of the weights gives it."""
    grist = _dry_grist(facts)
    weighed = [(item.kind, item.amount) for item in grist if isinstance(item.amount, Reading)]
    part = sum_of([band_of(amount) for one, amount in weighed if one == kind])
    rest = sum_of([band_of(amount) for one, amount in weighed if one != kind])
    if len(weighed) < len(grist) or not part.low or not rest.low:
        return point(100.0 * share)
    low, high = part.low / (part.low + rest.high), part.high / (part.high + rest.low)
    return Band(100.0 * min(low, share), 100.0 * share, 100.0 * max(high, share))


def smoked_malt(facts: Facts) -> Finding | None:
    """Whether smoked malt went in."""
    if "smoked malt" in _kinds(facts) and facts.beer.style_id == "smoked_beer":
        return facts.word("smoked_malt", "by_design", "smoked malt, as the style wants", _PATH)
    if "smoked malt" in _kinds(facts):
        return facts.word("smoked_malt", "yes", "smoked malt in the grist", _PATH)
    if _all_kinds_known(facts):
        return facts.word("smoked_malt", "no", "no smoked malt in the grist", _PATH)
    return None


def _kinds(facts: Facts) -> list[str]:
    grist = facts.record.recipe.fermentables
    return [item.kind for item in grist if not isinstance(item.kind, NotLogged)]


def _dry_grist(facts: Facts) -> tuple[Fermentable, ...]:
    """The fermentables but fruit, which is mostly water and no part of a grist."""
    return tuple(item for item in facts.record.recipe.fermentables if item.kind != "fruit")


def _all_kinds_known(facts: Facts) -> bool:
    """Whether every line of a grist says what it is; one that does not could be anything."""
    return 0 < len(_kinds(facts)) == len(facts.record.recipe.fermentables)


def share_of(grist: tuple[Fermentable, ...], kind: str) -> float | None:
    """Share of the grist by weight that is of one kind; None where they are not weighed."""
    of_kind = [item for item in grist if item.kind == kind]
    if not of_kind:
        return 0.0
    if len(of_kind) == len(grist):
        return 1.0
    amounts = [item.amount.value for item in grist if isinstance(item.amount, Reading)]
    if len(amounts) < len(grist):
        return None
    part = sum(item.amount.value for item in of_kind if isinstance(item.amount, Reading))
    return part / sum(amounts) if sum(amounts) else None
