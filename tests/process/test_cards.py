"""What the cards of constants promise."""

import pytest

from diagnose.documents import parse_yaml, read_text
from diagnose.process import (
    aeration,
    boil,
    carbonation,
    chlorine,
    esters,
    hops,
    ingredients,
    light,
    oxygen,
)
from diagnose.shipped import shipped
from tests.process.cards import ConstantCard, constant_cards, constants

CARDS = constant_cards()
BY_ID = pytest.mark.parametrize("card", CARDS, ids=[card.id for card in CARDS])


def kind_of_source(source: str) -> str:
    path = shipped("rules") / "sources" / f"{source}.yaml"
    return str(parse_yaml(read_text(path), path.name).data["kind"])


@BY_ID
def test_a_constant_rests_on_a_source_of_the_right_kind(card: ConstantCard) -> None:
    kinds = {"practice": {"practice"}, "judgement": {"judgement", "memory"}}
    assert kind_of_source(card.source) in kinds.get(card.basis, {"published"})


@BY_ID
def test_a_constant_from_memory_says_so(card: ConstantCard) -> None:
    from_memory = card.source == "from_memory"
    assert from_memory == bool(card.note and card.note.startswith("from memory"))


@BY_ID
def test_a_constant_has_a_unit(card: ConstantCard) -> None:
    assert card.unit


def test_no_constant_stands_on_two_cards() -> None:
    ids = [card.id for card in CARDS]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(
    "table",
    [
        aeration.SHARE_BY_METHOD,
        boil.EVAPORATION_BY_LID,
        boil.EVAPORATION_BY_VIGOUR,
        {"unsaid": boil.EVAPORATION_UNSAID, "ph": boil.USUAL_PH},
        carbonation.SUGAR_PER_VOLUME,
        chlorine.NEED_BY_SALT,
        chlorine.USUAL_BY_DISINFECTANT,
        esters.SLOPE_BY_COMPOUND,
        hops.PACK_FACTOR,
        ingredients.SHELF_BY_KIND,
        light.BRIGHTNESS_BY_LIGHT,
        light.FACTOR_BY_GLASS,
        oxygen.PICKUP_BY_FILL,
    ],
)
def test_every_word_of_a_table_has_its_constant(table: dict[str, str]) -> None:
    assert set(table.values()) <= set(constants())
