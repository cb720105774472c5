"""Families of causes: what can be said when the one cause cannot be told yet."""

from diagnose.answers import FamilyShare
from diagnose.inference.ranking import Ranking
from diagnose.knowledge import RuleBase

LEAST_SHARE = 0.05
_NAMES = {
    "contamination": "Contamination of some kind",
    "staling": "Staling, by oxygen or heat",
    "green_beer": "Beer moved on too young",
    "yeast_stress": "Yeast under stress",
    "water": "The water",
    "mash_and_sparge": "Mash or sparge",
    "boil": "Boil or chill",
    "ingredients": "An ingredient",
    "recipe": "The recipe or a dose",
    "residue": "A cleaner or sanitiser left behind",
    "taint": "A taint from material, metal or store",
    "gas": "Carbonation",
    "light": "Light",
    "serving": "Serving",
    "instrument": "An instrument that reads wrong",
    "taster": "The tasting itself",
}


def families_of(rules: RuleBase, ranking: Ranking, group: int) -> tuple[FamilyShare, ...]:
    """The families that may be behind a group of words, the likeliest first."""
    shares: dict[str, float] = {}
    for name, share in zip(
        ranking.structure.network.causes, ranking.responsible[0, group], strict=True
    ):
        family = rules.causes[name].family
        shares[family] = shares.get(family, 0.0) + float(share)
    order = sorted(shares, key=lambda family: (-shares[family], family))
    return tuple(
        FamilyShare(id=family, name=_NAMES[family], responsible=shares[family])
        for family in order
        if shares[family] >= LEAST_SHARE
    )
