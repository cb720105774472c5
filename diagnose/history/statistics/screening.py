"""The contrast: which columns separate flawed batches from clean ones, with all looks counted."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.history.statistics.columns import Column, Flags
from diagnose.history.statistics.effects import Effect, share_difference, shift
from diagnose.history.statistics.ranks import mann_whitney, mid_ranks_doubled, permutation_of_means
from diagnose.history.statistics.reach import adjusted, can_show, least_p
from diagnose.history.statistics.two_by_two import TwoByTwo, boschloo, fisher, least_fisher

# Beyond this the sharper second look costs more than it tells.
_SECOND_LOOK_BATCHES = 200


@dataclass(frozen=True)
class Suspect:
    """A column with its test; `same` are the columns that never part from it.

    `n_flawed` and `n_clean` count the batches in which it was logged.
    """

    column: Column
    same: tuple[Column, ...]
    n_flawed: int
    n_clean: int
    p: float
    exact: bool
    p_adjusted: float


@dataclass(frozen=True)
class Screening:
    """What was tested, the smallest p first, and what these batches could never show."""

    suspects: tuple[Suspect, ...]
    beyond_reach: tuple[Column, ...]


def screen(
    columns: Sequence[Column], flawed: Flags, level: float, first: Collection[str] = ()
) -> Screening:
    """Test every column that the batches could show anything of.

    Columns that never part are one suspect and are counted once. What cannot reach the level
    by its margins alone is not tested.

    Args:
        columns: the columns, over all batches.
        flawed: shape (batches,), which are flawed; the others are clean.
        level: the level of the adjusted p.
        first: factors that are named first among equals.
    """
    groups: dict[tuple[bytes, bytes], list[Column]] = {}
    beyond = []

    def order(one: Column) -> tuple[bool, bool, str]:
        return one.factor not in first, _rarer_in_flawed(one, flawed), one.name

    for column in sorted(columns, key=order):
        if _reachable(column, flawed, level):
            groups.setdefault(_pattern(column), []).append(column)
        else:
            beyond.append(column)
    leads = [group[0] for group in groups.values()]
    tested = [_tested(lead, flawed) for lead in leads]
    chances = adjusted([p for p, _ in tested])
    suspects = [
        _suspect(group, flawed, one, float(p_adjusted))
        for group, one, p_adjusted in zip(groups.values(), tested, chances, strict=True)
    ]
    # sorted() is stable, so equals keep the order above.
    return Screening(tuple(sorted(suspects, key=lambda one: one.p)), tuple(beyond))


def table_of(column: Column, flawed: Flags) -> TwoByTwo:
    """The counts of a yes/no column."""
    has, bad, known = column.values.astype(bool), flawed, column.logged
    return TwoByTwo(
        int((has & bad & known).sum()),
        int((~has & bad & known).sum()),
        int((has & ~bad & known).sum()),
        int((~has & ~bad & known).sum()),
    )


def effect_of(column: Column, flawed: Flags, level: float) -> Effect:
    """How large the difference is: of shares, or in the unit of the measure."""
    if column.word is not None:
        return share_difference(table_of(column, flawed), level)
    return shift(*_numbers(column, flawed), level)


def second_look(column: Column, flawed: Flags, seed: int = 0) -> float | None:
    """Another exact test of the same column: Boschloo's, or the permutation of means.

    It is shown beside the first and claims nothing. None where there are many batches.
    """
    if int(column.logged.sum()) > _SECOND_LOOK_BATCHES:
        return None
    if column.word is not None:
        return boschloo(table_of(column, flawed))
    return permutation_of_means(*_numbers(column, flawed), seed=seed)


def _numbers(column: Column, flawed: Flags) -> tuple[list[float], list[float]]:
    bad, good = column.logged & flawed, column.logged & ~flawed
    return column.values[bad].tolist(), column.values[good].tolist()


def _reachable(column: Column, flawed: Flags, level: float) -> bool:
    few = int((column.logged & flawed).sum())
    every = int(column.logged.sum())
    if few in (0, every) or not can_show(every, few, level):
        return False
    if column.word is not None:
        return least_fisher(table_of(column, flawed)) <= level
    return 2.0 * least_p(every, few) <= level


def _rarer_in_flawed(column: Column, flawed: Flags) -> bool:
    if column.word is None:
        return False
    table = table_of(column, flawed)
    return table.flawed_with * table.clean < table.clean_with * table.flawed


def _pattern(column: Column) -> tuple[bytes, bytes]:
    """The same for columns that never part, whichever way round they run."""
    known = column.values[column.logged]
    # Two values sort alike whatever they are, so a number of two values may match a yes or no.
    values = (known.min(), known.max())
    if bool(((known == values[0]) | (known == values[1])).all()):
        ranks, mirrored = known == values[0], known == values[1]
    else:
        ranks = mid_ranks_doubled(known)
        mirrored = 2 * (known.size + 1) - ranks
    return column.logged.tobytes(), min(ranks.tobytes(), mirrored.tobytes())


def _tested(column: Column, flawed: Flags) -> tuple[float, bool]:
    if column.word is not None:
        return fisher(table_of(column, flawed)), True
    test = mann_whitney(*_numbers(column, flawed))
    return test.p, test.exact


def _suspect(
    group: Sequence[Column], flawed: Flags, tested: tuple[float, bool], p_adjusted: float
) -> Suspect:
    lead = group[0]
    return Suspect(
        column=lead,
        same=tuple(group[1:]),
        n_flawed=int(np.count_nonzero(lead.logged & flawed)),
        n_clean=int(np.count_nonzero(lead.logged & ~flawed)),
        p=tested[0],
        exact=tested[1],
        p_adjusted=p_adjusted,
    )
