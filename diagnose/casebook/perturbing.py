"""How often the first outcome of a case stays first when the rule base's guesses are redrawn."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

import numpy as np

from diagnose.answers import PerturbedCase
from diagnose.batch import read_batch
from diagnose.casebook.case import Case
from diagnose.casebook.outcomes import NOTHING_NAMED
from diagnose.casebook.reach import outcomes_within
from diagnose.casebook.watching import Watch, unwatched
from diagnose.consult import consult_on
from diagnose.consult.reaching import Reach, reach_of
from diagnose.consult.redrawing import SEED, redraw
from diagnose.knowledge import RuleBase


def perturbed_firsts(
    rules: RuleBase,
    cases: Sequence[Case],
    today: date,
    draws: int,
    watch: Watch = unwatched,
) -> tuple[PerturbedCase, ...]:
    """For each case, how often its first outcome stays first over the redrawn rule bases.

    Args:
        rules: the rule base as it stands.
        cases: the cases; their records are read once and keep their findings.
        today: dates after this day are refused.
        draws: how many rule bases to draw; with none there is nothing to tell.
        watch: what may show how far it is.
    """
    if not draws:
        return ()
    batches = [read_batch(case.folder / "batch.yaml", today) for case in cases]
    reaches = [reach_of(rules, consult_on(rules, batch)) for batch in batches]
    firsts = [_first(rules, reach) for reach in reaches]
    counts: list[Counter[str]] = [Counter() for _ in cases]
    random = np.random.default_rng(SEED)
    for _ in watch(range(draws), "draws"):
        redrawn = redraw(rules, random)
        for count, reach in zip(counts, reaches, strict=True):
            count[_first(redrawn, reach)] += 1
    return tuple(
        _line(case, first, count) for case, first, count in zip(cases, firsts, counts, strict=True)
    )


def _first(rules: RuleBase, reach: Reach) -> str:
    outcomes = outcomes_within(rules, reach)
    return outcomes[0][0] if outcomes else NOTHING_NAMED


def _line(case: Case, first: str, count: Counter[str]) -> PerturbedCase:
    rivals = [(name, number) for name, number in count.most_common() if name != first]
    return PerturbedCase(
        case=case.card.id,
        first=first,
        kept=count[first] / max(sum(count.values()), 1),
        rival=rivals[0][0] if rivals else "",
    )
