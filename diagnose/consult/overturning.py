"""The smallest set of answers that would put another cause first, each set solved exactly."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import prod

import numpy as np

from diagnose.answers import Overturned, lower_first
from diagnose.consult.answered import Answered
from diagnose.consult.echoes import Echoes
from diagnose.consult.turning import Turn, answers_to, doubtful_readings, together
from diagnose.consult.whole_answers import summed
from diagnose.inference.explanation import Explanation
from diagnose.inference.groups import compounds_behind
from diagnose.inference.network import Floats
from diagnose.inference.overturning import Flags, Standing, promising_sets, standing_of
from diagnose.inference.question import Answer, Question, expected_gains
from diagnose.inference.scenarios import Structure
from diagnose.knowledge import RuleBase

MOST_TOGETHER = 3
SHOWN_SINGLE = 2
# So many sets of each size are solved; one column of a solve each.
SOLVED = {1: 6, 2: 8, 3: 4}
# Sets that bring in more compounds than this are dear to solve and are left aside.
MOST_OUTSIDE = 3
_TOGETHER = {2: "both", 3: "all three"}


@dataclass(frozen=True)
class Case:
    """What there is to overturn: the evidence, its solve, and what may turn out.

    `mistaken` are what was also asked about in the explanation.
    """

    echoes: Echoes
    explanation: Explanation
    told: Answered
    mistaken: Sequence[Turn]


@dataclass(frozen=True)
class _Search:
    """One group: how its first cause stands, and the sets of turns to be solved."""

    standing: Standing
    sets: Sequence[tuple[int, ...]]


def overturned(rules: RuleBase, case: Case) -> tuple[Overturned, ...]:
    """For every group of words, the fewest answers that would put another cause first.

    Single answers are all looked at, each by its own exact solve; two or three together only
    where none does it alone, the most promising ones, and each set by an exact solve too.
    """
    groups = range(case.explanation.ranking.responsible.shape[1])
    turns, chances = _turns(case)
    if not turns:
        return tuple(_nothing() for _ in groups)
    known = case.explanation.ranking.responsible[0]
    apart = _apart(case.echoes, turns)
    standings = [standing_of(known[group], chances[:, group]) for group in groups]
    searches = [_search(case, turns, (standing, apart)) for standing in standings]
    wanted = sorted({some for search in searches for some in search.sets})
    done = [some for some in wanted if len(some) == 1 and turns[some[0]].solved]
    after: dict[tuple[int, ...], Floats] = {some: chances[some[0]] for some in done}
    after |= _solved(case, turns, [some for some in wanted if some not in after])
    return tuple(
        _answer(rules, case, turns, (search, {s: row[group] for s, row in after.items()}))
        for group, search in enumerate(searches)
    )


def _turns(case: Case) -> tuple[list[Turn], Floats]:
    """What may turn out, and the chances of the causes after it, (turns, groups, causes).

    Where a turn moves more than it was solved with, its chances are a guide.
    """
    explanation = case.explanation
    found: list[tuple[Turn, Floats]] = [
        (turn, case.told.responsible[place]) for place, turn in answers_to(case.echoes, case.told)
    ]
    found += zip(case.mistaken, explanation.also, strict=True)
    found += [(turn, explanation.left_out[row]) for row, turn in doubtful_readings(case.echoes)]
    causes = explanation.ranking.structure.network.cause_index
    guides = [one if turn.solved else _moved(one, turn, causes) for turn, one in found]
    return [turn for turn, _ in found], np.array(guides)


def _moved(chances: Floats, turn: Turn, causes: Mapping[str, int]) -> Floats:
    """The chances with what the turn moves besides, each cause for itself."""
    moved, beside = chances.copy(), summed(turn.beside)
    for weights in (beside.happened, beside.responsible):
        for cause, decibans in weights.items():
            moved[:, causes[cause]] *= 10.0 ** (decibans / 10.0)
    return moved


def _apart(echoes: Echoes, turns: Sequence[Turn]) -> Flags:
    """Which turns are not taken together: they are about one thing, or say the same of it."""
    things = [min(echoes.alike.get(turn.about[1], (turn.about[1],))) for turn in turns]
    number = {thing: place for place, thing in enumerate(dict.fromkeys(things))}
    places = np.array([number[thing] for thing in things])
    apart: Flags = places[:, None] == places
    return apart


def _search(case: Case, turns: Sequence[Turn], looked: tuple[Standing, Flags]) -> _Search:
    standing, apart = looked
    falling = sorted(standing.falling, key=lambda place: (-turns[place].chance, place))
    sets: list[tuple[int, ...]] = [(place,) for place in falling[: SOLVED[1]]]
    surely = any(turns[place].solved for place in falling[: SOLVED[1]])
    for size in range(2, MOST_TOGETHER + 1) if not surely else ():
        some = promising_sets(standing, apart, size, SOLVED[size])
        # A set is not the smallest where a part of it does as well.
        sets += [part for wide in some for part in combinations(wide, size - 1) if size > 2]
        sets += some
    structure = case.explanation.ranking.structure
    return _Search(
        standing,
        [
            some
            for some in sets
            if len(some) == 1 or _near(structure, [turns[place] for place in some])
        ],
    )


def _near(structure: Structure, turns: Sequence[Turn]) -> bool:
    """Whether what the turns weigh is mostly in the sweep already."""
    network, pieces = structure.network, [piece for turn in turns for piece in turn.pieces]
    weighed = {network.compound_index[name] for piece in pieces for name in piece.present}
    words = {word for piece in pieces for word in piece.words}
    weighed |= set(compounds_behind(network, tuple(words))) if words else set()
    return len(weighed - set(structure.compounds)) <= MOST_OUTSIDE


def _solved(
    case: Case, turns: Sequence[Turn], sets: Sequence[tuple[int, ...]]
) -> dict[tuple[int, ...], Floats]:
    """The chances of the causes after each set of turns, (groups, causes) each."""
    if not sets:
        return {}
    questions = [
        Question("turned", str(place), 0.0, (Answer("", 1.0, together([turns[p] for p in some])),))
        for place, some in enumerate(sets)
    ]
    network = case.explanation.ranking.structure.network
    return {
        sets[int(gain.question.key)]: gain.outcomes[0].responsible
        for gain in expected_gains(network, case.echoes.evidence, questions)
    }


def _answer(
    rules: RuleBase,
    case: Case,
    turns: Sequence[Turn],
    solved: tuple[_Search, dict[tuple[int, ...], Floats]],
) -> Overturned:
    (search, after), first = solved, solved[0].standing.first
    really = [some for some in search.sets if after[some].max() > after[some][first]]
    if not really:
        return _nothing()
    size = min(len(some) for some in really)
    smallest = [some for some in really if len(some) == size]
    smallest.sort(key=lambda some: -prod(turns[place].chance for place in some))
    some = smallest[0]
    instead = case.explanation.ranking.structure.network.causes[int(after[some].argmax())]
    shown = smallest[: SHOWN_SINGLE if size == 1 else 1]
    return Overturned(
        size=size,
        by=tuple(_text([turns[place] for place in places]) for places in shown),
        keys=tuple(turns[place].about[1] for place in some),
        instead=instead,
        instead_name=rules.causes[instead].name,
    )


def _text(turns: Sequence[Turn]) -> str:
    if len(turns) == 1:
        return turns[0].text
    said = "; and ".join(lower_first(turn.text) for turn in turns)
    return f"{_TOGETHER[len(turns)]} of these: {said}"


def _nothing() -> Overturned:
    return Overturned(size=0, by=(), keys=(), instead="", instead_name="")
