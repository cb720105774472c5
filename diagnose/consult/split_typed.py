"""What is typed behind the split commands, read."""

import secrets
from collections.abc import Mapping
from datetime import date
from typing import Any

from diagnose.errors import Fault, UnreadableQuantity, UnusableInput
from diagnose.sensory import name_of_test
from diagnose.sensory.refusing import require_answers
from diagnose.trial.ballots import Typed
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from diagnose.trial.panel import BallotsAsked, named_test
from diagnose.trial.plan import Design, Plan
from diagnose.trial.planning import PlanAsked
from diagnose.units import Field, read_quantity
from diagnose.units.day import read_day

_DESIGNS: tuple[Design, ...] = ("isolating", "2x2", "search")
_SURE = ("", "guess", "think so", "certain")
_LONGEST_COMMENT = 500


def asked_plan(
    given: Mapping[str, Any], typed: Mapping[str, str | None], seed: int | None, today: date
) -> PlanAsked:
    """A plan as asked for.

    Args:
        given: causes, design, pairs and tasters; the record and its tastes as typed.
        typed: volume, start and test as typed.
        seed: of the draw; drawn itself where there is none.
        today: the day the plan is made, and starts unless told otherwise.

    Raises:
        UnusableInput: something that cannot be read.
    """
    design = next((one for one in _DESIGNS if one == given["design"]), None)
    if design is None:
        raise _refusal("design", repr(given["design"]), f"one of {', '.join(_DESIGNS)}")
    require_answers(given["tasters"])
    return PlanAsked(
        causes=given["causes"],
        litres=_litres(typed["volume"]),
        start=_day(typed["start"], today),
        seed=secrets.randbelow(10**6) if seed is None else seed,
        made=today,
        design=design,
        pairs=given["pairs"],
        tasters=given["tasters"],
        test=_test(typed["test"]),
        record=given.get("record", ""),
        tastes=given.get("tastes", ()),
    )


def _litres(typed: str | None) -> float:
    if typed is None:
        return 0.0
    try:
        litres = read_quantity(typed, Field.VOLUME).value
    except UnreadableQuantity as error:
        raise _refusal("volume", error.found, error.wanted) from error
    if litres <= 0.0:
        raise _refusal("volume", repr(typed), "the volume of your batch, such as 23 L")
    return litres


def _day(typed: str | None, today: date) -> date:
    return today if typed is None else read_day("--start", typed, today)


def _test(typed: str | None) -> str | None:
    if typed is None:
        return None
    test = name_of_test(typed)
    if test not in TESTS_WITH_BALLOTS:
        raise _refusal("test", repr(typed), f"one of {', '.join(TESTS_WITH_BALLOTS)}")
    return test


def asked_ballots(
    plan: Plan, typed: Mapping[str, str | None], counts: tuple[int, int, int], today: date
) -> BallotsAsked:
    """A panel as asked for.

    Args:
        plan: the plan.
        typed: tasters, arms and test as typed.
        counts: rounds, spare sets, and which pair of vessels.
        today: the day it is made.

    Raises:
        UnusableInput: something that cannot be read.
    """
    names = tuple(name.strip() for name in (typed["tasters"] or "").split(",") if name.strip())
    arms = tuple(arm.strip().upper() for arm in (typed["arms"] or "").split(","))
    if len(arms) != 2:
        raise _refusal("arms", repr(typed["arms"]), "two arms, such as A,B")
    rounds, spares, pair = counts
    return BallotsAsked(
        tasters=names,
        test=named_test(plan, typed["test"]),
        made=today,
        rounds=rounds,
        spares=spares,
        arms=(arms[0], arms[1]),
        pair=pair,
    )


def secret_of(seed: int | None) -> tuple[int, str]:
    """The seed of a draw, and a salt that nobody can guess."""
    return (secrets.randbits(63) if seed is None else seed), secrets.token_hex(16)


def typed_ballot(taster: str, words: tuple[str, ...], said: tuple[str, str], at: str) -> Typed:
    """A ballot as typed.

    Args:
        taster: the pseudonym.
        words: codes, with ratings where they are wanted.
        said: how sure, and the comment.
        at: the time.

    Raises:
        UnusableInput: a word for how sure that is on no ballot, or a comment that is too long.
    """
    sure, comment = said
    if sure not in _SURE:
        raise _refusal("sure", repr(sure), "guess, think so or certain")
    if len(comment) > _LONGEST_COMMENT:
        raise _refusal("comment", f"{len(comment)} signs", f"at most {_LONGEST_COMMENT}")
    return Typed(taster.strip(), words, sure, comment.strip(), at)


def _refusal(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault("split", 0, key, found, wanted))
