"""Single glasses and ratings, in words."""

from math import isfinite

from diagnose.answers.panels import PanelRead, Span
from diagnose.consult.panel_counts import one_count, ratings
from diagnose.consult.panel_words import SHOWN_BY_FEW, dprime_words, few_words, p_words
from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import (
    A_NOT_A,
    DIFFERENCE_FROM_CONTROL,
    SingleGlasses,
    read_a_not_a,
    read_ratings,
)
from diagnose.sensory.refusing import require_alpha
from diagnose.trial.fitting import counting_method


def read_single_glasses(hits: tuple[int, int], false_alarms: str | None, alpha: float) -> PanelRead:
    """An A-not-A tasting read.

    Raises:
        UnusableInput: no count of false alarms, or counts that cannot be.
    """
    require_alpha(alpha)
    if false_alarms is None:
        wanted = "how often the other beer was called A, such as --false-alarms '3 of 20'"
        raise UnusableInput(Fault("panel", 0, "", "no false alarms", wanted))
    false, others = one_count(false_alarms, "--false-alarms")
    found = read_a_not_a(SingleGlasses(hits[0], hits[1], false, others))
    estimate = found.dprime
    low, value, high = (
        end if isfinite(end) else None for end in (estimate.low, estimate.value, estimate.high)
    )
    shown = found.p <= alpha
    distance = dprime_words(estimate, shown=shown)
    return PanelRead(
        test=A_NOT_A,
        name="A-not-A test",
        given=f"A called A {hits[0]} of {hits[1]} times, the other beer {false} of {others}",
        correct=hits[0],
        of=hits[1],
        alpha=alpha,
        p=found.p,
        verdict="shown" if shown else "not_shown",
        says=f"{'shown' if shown else 'not shown'} ({p_words(found.p)}); {distance}",
        dprime=Span(low=low, value=value, high=high, says=distance),
        remarks=(
            "counts each glass as judged by itself; pair the answers of a taster who had both",
            *(() if shown else ("not shown is not 'no difference'",)),
        ),
    )


def read_rated(test: str | None, control: str | None, alpha: float) -> PanelRead:
    """Ratings of difference from control read.

    Raises:
        UnusableInput: ratings missing, or ratings that cannot be.
    """
    require_alpha(alpha)
    if test is None or control is None:
        wanted = "--ratings of the test beer and --control of the blind control, taster by taster"
        raise UnusableInput(Fault("panel", 0, "", "no pair of ratings", wanted))
    found = read_ratings(ratings(test, "--ratings"), ratings(control, "--control"))
    shown = found.p <= alpha
    # The factor of ratings counts pairs, as a paired test does.
    few = few_words(counting_method(DIFFERENCE_FROM_CONTROL), found.tasters)
    gap = found.mean_difference
    side = "farther off" if gap >= 0.0 else "nearer"
    size = f"rated {abs(gap):.1f} points {side} than the blind control"
    return PanelRead(
        test=DIFFERENCE_FROM_CONTROL,
        name="difference from control",
        given=f"{found.tasters} tasters",
        of=found.tasters,
        alpha=alpha,
        p=found.p,
        verdict="shown" if shown else "not_shown",
        too_few=bool(few),
        says=f"{_shown_words(shown=shown, few=few)} ({p_words(found.p)}); {size}",
        remarks=tuple(
            line for line in (few, "" if shown else "not shown is not 'no difference'") if line
        ),
    )


def _shown_words(*, shown: bool, few: str) -> str:
    if not shown:
        return "not shown"
    return SHOWN_BY_FEW if few else "shown"
