"""A blind panel: who tastes which coded glasses in which order; the key is kept apart."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from random import Random
from typing import Literal

from pydantic import Field

from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import name_of_test
from diagnose.trial.codes import draw_codes
from diagnose.trial.fitting import TESTS_WITH_BALLOTS, is_directed
from diagnose.trial.orders import ORDERS, serving_orders
from diagnose.trial.plan import Part, Plan

_PSEUDONYM = re.compile(r"[^\W_][\w-]{0,19}")
_MOST_TASTERS = 60


class Serving(Part):
    """One set of coded glasses for one taster, in the order of tasting."""

    taster: str
    round: int = Field(ge=1)
    codes: tuple[str, ...]


class Panel(Part):
    """What host and tasters may know; `commitment` ties it to the sealed key.

    `spares` are sets for latecomers; nobody waits for them.
    """

    panel: Literal[1] = 1
    batch: str
    made: date
    test: str
    ask: str | None
    rounds: int = Field(ge=1)
    servings: tuple[Serving, ...] = Field(min_length=1)
    spares: tuple[str, ...]
    alcohol_percent: float
    alcohol_known: bool
    contains: tuple[str, ...]
    commitment: str

    @property
    def tasters(self) -> tuple[str, ...]:
        """Every taster, the spare sets last."""
        return tuple(dict.fromkeys(serving.taster for serving in self.servings))

    @property
    def awaited(self) -> tuple[tuple[str, int], ...]:
        """The ballots that the panel waits for, as taster and round."""
        return tuple((s.taster, s.round) for s in self.servings if s.taster not in self.spares)


@dataclass(frozen=True)
class Served:
    """A panel with its key: which arm is in which coded glass, S the suspect one, O the other.

    `open_glass` says for each taster and round what the open glass (R or C) holds, where the
    test has one.
    """

    servings: tuple[Serving, ...]
    arms: Mapping[str, str]
    open_glass: Mapping[str, str]


@dataclass(frozen=True)
class BallotsAsked:
    """Who tastes, how often, by which test, between which two arms and from which pair."""

    tasters: tuple[str, ...]
    test: str
    made: date
    rounds: int = 1
    spares: int = 0
    arms: tuple[str, str] = ("A", "B")
    pair: int = 1


def require_servable(plan: Plan, asked: BallotsAsked) -> None:
    """Refuse a panel that may not or cannot be held.

    Args:
        plan: the plan.
        asked: the panel.

    Raises:
        UnusableInput: a batch that must not be tasted, no tasters, full names, one taster twice,
            a test without ballots, a directed test of a fault without a name, unknown arms.
    """
    if plan.not_served_because:
        found = f"a caution that says stop: {plan.not_served_because[0]}"
        raise _refusal("tasting", found, "beer that may be tasted; this one is not served")
    if not 1 <= len(asked.tasters) <= _MOST_TASTERS:
        raise _refusal("tasters", str(len(asked.tasters)), f"1 to {_MOST_TASTERS} tasters")
    for name in asked.tasters:
        if not _PSEUDONYM.fullmatch(name):
            wanted = "a pseudonym of one word, such as 'Wren'; no full names are kept"
            raise _refusal("tasters", repr(name), wanted)
    folded = [name.casefold() for name in asked.tasters]
    twice = next((name for name in asked.tasters if folded.count(name.casefold()) > 1), None)
    if twice is not None:
        raise _refusal("tasters", f"{twice!r} twice", "each taster once; for rounds see --rounds")
    if asked.test not in TESTS_WITH_BALLOTS:
        raise _refusal("test", repr(asked.test), f"one of {', '.join(TESTS_WITH_BALLOTS)}")
    if is_directed(asked.test) and plan.ask is None:
        wanted = "a tetrad or a triangle: nobody has named the flavour to ask for"
        raise _refusal("test", asked.test, wanted)
    if not 1 <= asked.rounds <= 6 or not 0 <= asked.spares <= 6:
        raise _refusal("rounds", f"{asked.rounds} rounds, {asked.spares} spares", "1 to 6, 0 to 6")
    _require_arms(plan, asked)


def _require_arms(plan: Plan, asked: BallotsAsked) -> None:
    known = [arm.label for arm in plan.arms]
    first, second = asked.arms
    if first == second or not {first, second} <= set(known):
        raise _refusal("arms", f"{first},{second}", f"two of {', '.join(known)}")
    if asked.pair not in {vessel.pair for vessel in plan.vessels}:
        last = max(vessel.pair for vessel in plan.vessels)
        raise _refusal("pair", str(asked.pair), f"1 to {last}, as planned")


def _refusal(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault("split ballots", 0, key, found, wanted))


def named_test(plan: Plan, typed: str | None) -> str:
    """The test as typed, or the one that the plan names."""
    return plan.test if typed is None else name_of_test(typed)


def serve(asked: BallotsAsked, random: Random) -> Served:
    """Draw orders and codes.

    Args:
        asked: the panel, already found servable.
        random: the source of the draw.
    """
    spares = tuple(f"spare-{number}" for number in range(1, asked.spares + 1))
    tasters = (*asked.tasters, *spares)
    orders = serving_orders(asked.test, len(tasters), asked.rounds, random)
    each = len(ORDERS[asked.test][0].split(":")[-1])
    codes = iter(draw_codes(each * len(tasters) * asked.rounds, random))
    servings: list[Serving] = []
    arms: dict[str, str] = {}
    open_glass: dict[str, str] = {}
    for taster, hand in zip(tasters, orders, strict=True):
        for number, order in enumerate(hand, start=1):
            reference, _, glasses = order.rpartition(":")
            own = {next(codes): glass for glass in glasses}
            servings.append(Serving(taster=taster, round=number, codes=tuple(own)))
            arms |= own
            if reference:
                open_glass[f"{taster} {number}"] = reference.upper()
    return Served(tuple(servings), arms, open_glass)
