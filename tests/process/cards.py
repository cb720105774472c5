"""The shipped constants, as the models take them."""

from functools import cache

from diagnose.documents import Number, parse_yaml, read_text
from diagnose.process import Band
from diagnose.shipped import shipped


class ConstantCard(Number):
    id: str


@cache
def constant_cards() -> tuple[ConstantCard, ...]:
    files = sorted((shipped("rules") / "constants").glob("*.yaml"))
    documents = [parse_yaml(read_text(path), path.name) for path in files]
    return tuple(ConstantCard(**card) for document in documents for card in document.data)


@cache
def constants() -> dict[str, float]:
    return {card.id: card.value for card in constant_cards()}


@cache
def bands() -> dict[str, Band]:
    return {card.id: Band(card.low, card.value, card.high) for card in constant_cards()}
