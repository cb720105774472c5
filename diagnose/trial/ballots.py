"""The ballot box: one line for each ballot, in the order in which they came in."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import DIFFERENCE_FROM_CONTROL
from diagnose.trial.panel import Panel, Serving

_NAMES = {"tetrad": "the two codes that belong together", DIFFERENCE_FROM_CONTROL: "both ratings"}
_HIGHEST_RATING = 10


@dataclass(frozen=True)
class Ballot:
    """One answer: the codes chosen, or the rating of every code, and what was said afterwards."""

    taster: str
    round: int
    chosen: tuple[str, ...]
    ratings: Mapping[str, int] = field(default_factory=dict)
    sure: str = ""
    comment: str = ""
    at: str = ""


@dataclass(frozen=True)
class Box:
    """What is in the box: ballots, why it was closed, and lines that cannot be read."""

    ballots: tuple[Ballot, ...]
    closed: str | None
    broken: tuple[int, ...]

    def has(self, taster: str, round_: int) -> bool:
        """Whether this ballot is in."""
        return any((one.taster, one.round) == (taster, round_) for one in self.ballots)

    def missing(self, panel: Panel) -> tuple[tuple[str, int], ...]:
        """The ballots that the panel still waits for."""
        return tuple(one for one in panel.awaited if not self.has(*one))


def box_of(text: str) -> Box:
    """The box from the text of its file.

    A line that was cut short (the power failed) is counted as broken, and its ballot as missing.
    """
    ballots: dict[tuple[str, int], Ballot] = {}
    closed, broken = None, []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        try:
            data = json.loads(line)
            if "closed" in data:
                closed = closed or str(data["closed"])
            elif "taster" in data:
                ballot = _ballot(data)
                ballots.setdefault((ballot.taster, ballot.round), ballot)
        except (ValueError, KeyError, TypeError):
            broken.append(number)
    return Box(tuple(ballots.values()), closed, tuple(broken))


def _ballot(data: Mapping[str, object]) -> Ballot:
    chosen, ratings = data["chosen"], data.get("ratings", {})
    if not isinstance(chosen, list) or not isinstance(ratings, dict):
        raise TypeError("a ballot of another shape")
    return Ballot(
        taster=str(data["taster"]),
        round=int(str(data["round"])),
        chosen=tuple(str(code) for code in chosen),
        ratings={str(code): int(rating) for code, rating in ratings.items()},
        sure=str(data.get("sure", "")),
        comment=str(data.get("comment", "")),
        at=str(data.get("at", "")),
    )


def line_of(ballot: Ballot) -> str:
    """The line that a ballot is in the box."""
    data = {
        "taster": ballot.taster,
        "round": ballot.round,
        "chosen": list(ballot.chosen),
        "ratings": dict(ballot.ratings),
        "sure": ballot.sure,
        "comment": ballot.comment,
        "at": ballot.at,
    }
    return json.dumps({key: value for key, value in data.items() if value not in ("", {})})


def closing_line(reason: str, at: str) -> str:
    """The line that closes the box."""
    return json.dumps({"closed": reason, "at": at})


@dataclass(frozen=True)
class Typed:
    """A ballot as typed: the taster, the codes ("412", or "412=3" where a rating is wanted)."""

    taster: str
    words: tuple[str, ...]
    sure: str = ""
    comment: str = ""
    at: str = ""


def ballot_of(panel: Panel, box: Box, typed: Typed) -> Ballot:
    """A typed ballot, checked against the panel and the box.

    Args:
        panel: the panel.
        box: what is in the box.
        typed: the ballot.

    Returns:
        The ballot to put in.

    Raises:
        UnusableInput: the box is closed, the taster or a code is not of this panel, the codes are
            of somebody else or of two rounds, too many or too few, or the ballot is in already.
    """
    if box.closed is not None:
        raise _refusal("panel", f"closed ({box.closed})", "a ballot before the key was opened")
    taster = _taster(panel, typed.taster)
    codes, ratings = _codes(panel, typed.words)
    serving = _serving(panel, taster, codes)
    if box.has(taster, serving.round):
        found = f"a ballot of {taster} for round {serving.round} twice"
        raise _refusal("ballot", found, "each ballot once; the first one stands")
    _require_count(panel, serving, codes)
    chosen = () if ratings else codes
    return Ballot(taster, serving.round, chosen, ratings, typed.sure, typed.comment, typed.at)


def _taster(panel: Panel, typed: str) -> str:
    known = {name.casefold(): name for name in panel.tasters}
    if typed.casefold() not in known:
        raise _refusal("taster", repr(typed), f"one of {', '.join(panel.tasters)}")
    return known[typed.casefold()]


def _codes(panel: Panel, words: tuple[str, ...]) -> tuple[tuple[str, ...], dict[str, int]]:
    pairs = [word.replace(":", "=").partition("=")[::2] for word in words]
    rated = panel.test == DIFFERENCE_FROM_CONTROL
    if any(bool(rating) != rated for _, rating in pairs):
        wanted = "codes with ratings, such as 412=3" if rated else "codes alone, such as 412"
        raise _refusal("code", repr(" ".join(words)), wanted)
    if not rated:
        return tuple(code for code, _ in pairs), {}
    for _, rating in pairs:
        if not rating.isdecimal() or int(rating) > _HIGHEST_RATING:
            raise _refusal("rating", repr(rating), f"a whole number from 0 to {_HIGHEST_RATING}")
    return tuple(code for code, _ in pairs), {code: int(rating) for code, rating in pairs}


def _serving(panel: Panel, taster: str, codes: tuple[str, ...]) -> Serving:
    own = [serving for serving in panel.servings if serving.taster == taster]
    holders = [next((s for s in panel.servings if code in s.codes), None) for code in codes]
    for code, holder in zip(codes, holders, strict=True):
        listed = "; ".join(" ".join(serving.codes) for serving in own)
        if holder is None:
            raise _refusal("code", repr(code), f"a code on the ballot of {taster}: {listed}")
        if holder.taster != taster:
            raise _refusal("code", f"{code!r}, a glass of somebody else", f"one of {listed}")
    rounds = {holder.round for holder in holders if holder is not None}
    if len(rounds) != 1:
        raise _refusal("code", " ".join(codes) or "nothing", "codes of one round")
    return next(serving for serving in own if serving.round in rounds)


def _require_count(panel: Panel, serving: Serving, codes: tuple[str, ...]) -> None:
    wanted = {"tetrad": 2, DIFFERENCE_FROM_CONTROL: len(serving.codes)}.get(panel.test, 1)
    if len(codes) != wanted or len(set(codes)) != wanted:
        text = _NAMES.get(panel.test, "one code: the glass chosen")
        raise _refusal("code", " ".join(codes), text)


def _refusal(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault("split enter", 0, key, found, wanted))
