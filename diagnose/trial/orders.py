"""Balanced serving orders: each as often as any other, and no taster the same one too soon."""

from itertools import combinations
from random import Random

# Glasses in the order of tasting; S is the arm with the suspect setting, O the other one, and
# R the open reference of a duo-trio (first) or the open control of a rating.
ORDERS = {
    "triangle": ("SSO", "SOS", "OSS", "OOS", "OSO", "SOO"),
    "tetrad": ("SSOO", "SOSO", "SOOS", "OOSS", "OSOS", "OSSO"),
    "2-afc": ("SO", "OS"),
    "3-afc": ("SOO", "OSO", "OOS"),
    "duo-trio": ("s:SO", "s:OS", "o:SO", "o:OS"),
    "difference-from-control": ("o:SO", "o:OS"),
}


def serving_orders(
    test: str, tasters: int, rounds: int, random: Random
) -> tuple[tuple[str, ...], ...]:
    """The orders of every taster, round by round.

    Args:
        test: one of `ORDERS`.
        tasters: number of tasters.
        rounds: rounds of each.
        random: the source of the draw.

    Returns:
        For each taster the order of each round. Every order occurs equally often, within one;
        what is left over is spread over positions and beers as evenly as it can be.

    Source: balanced complete sets first, then the remainder drawn; common practice.
    """
    orders = list(ORDERS[test])
    whole, left = divmod(tasters * rounds, len(orders))
    extra = random.choice(most_even(tuple(orders), left))
    random.shuffle(orders)
    pool = [order for order in orders for _ in range(whole + (order in extra))]
    # Dealt out one by one, equal orders fall to different tasters.
    hands = [pool[taster::tasters] for taster in range(tasters)]
    random.shuffle(hands)
    return tuple(_without_early_repeats(hand, random) for hand in hands)


def most_even(orders: tuple[str, ...], count: int) -> list[tuple[str, ...]]:
    """The choices of so many orders that spread beers over positions most evenly."""
    choices = list(combinations(orders, count))
    least = min(_unevenness(choice) for choice in choices)
    return [choice for choice in choices if _unevenness(choice) == least]


def _unevenness(choice: tuple[str, ...]) -> tuple[int, int, int]:
    """How far the odd glasses are from each place in turn, and the beers from each other."""
    if not choice:
        return 0, 0, 0
    places = zip(*(order.split(":")[-1] for order in choice), strict=True)
    by_place = sum(abs(place.count("S") - place.count("O")) for place in places)
    odd_at = [_odd_place(order) for order in choice]
    odds = [odd_at.count(place) for place in range(3)] if None not in odd_at else [0]
    references = [order.split(":")[0] for order in choice if ":" in order]
    beside = abs(references.count("s") - references.count("o"))
    return max(odds) - min(odds), _lone_beers(choice), by_place + beside


def _lone_beers(choice: tuple[str, ...]) -> int:
    """In triangles, how much more often one beer is the odd one."""
    lone = [order for order in choice if _odd_place(order) is not None]
    return abs(sum(1 if order.count("S") == 1 else -1 for order in lone))


def _odd_place(order: str) -> int | None:
    """Where the odd glass of three stands."""
    if len(order) != 3 or ":" in order:
        return None
    lone = "S" if order.count("S") == 1 else "O"
    return order.index(lone)


def _without_early_repeats(hand: list[str], random: Random) -> tuple[str, ...]:
    """One taster's orders, none a second time before all of them were used."""
    left, sequence = list(hand), []
    while left:
        turn = sorted(set(left))
        random.shuffle(turn)
        for order in turn:
            left.remove(order)
        sequence += turn
    return tuple(sequence)
