"""What every card of the rule base has in common."""

from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict

from diagnose.documents import Basis, Number


class Card(BaseModel):
    """A frozen piece of the rule base that refuses keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _inside_unit_interval(number: Number) -> Number:
    if not 0.0 < number.value < 1.0:
        raise ValueError(f"found {number.value}; wanted a probability above 0 and below 1")
    if number.low < 0.0 or number.high > 1.0:
        raise ValueError(f"found {number.low} to {number.high}; wanted a range within 0 to 1")
    return number


Probability = Annotated[Number, AfterValidator(_inside_unit_interval)]


def _sums_to_one(shares: dict[str, float]) -> dict[str, float]:
    total = sum(shares.values())
    if min(shares.values(), default=0.0) <= 0.0:
        raise ValueError("found a share of 0; wanted every share above 0 (nothing is impossible)")
    if abs(total - 1.0) > SHARE_SLACK:
        raise ValueError(f"found shares that sum to {total:.3f}; wanted a sum of 1")
    return {value: share / total for value, share in shares.items()}


SHARE_SLACK = 0.011
Shares = Annotated[dict[str, float], AfterValidator(_sums_to_one)]
Stage = Literal[
    "ingredients",
    "water",
    "mash",
    "sparge",
    "boil",
    "chill",
    "pitch",
    "fermentation",
    "dry_hop",
    "transfer",
    "packaging",
    "storage",
    "serving",
    "cleaning",
    "equipment",
    "contamination",
    "recipe",
    "taster",
]

Family = Literal[
    "contamination",
    "staling",
    "green_beer",
    "yeast_stress",
    "water",
    "mash_and_sparge",
    "boil",
    "ingredients",
    "recipe",
    "residue",
    "taint",
    "gas",
    "light",
    "serving",
    "instrument",
    "taster",
]


class Judged(Card):
    """A set of numbers with one basis and one source: a curve, a table of shares."""

    basis: Basis
    source: str
