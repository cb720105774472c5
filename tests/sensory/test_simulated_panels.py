"""20,000 simulated panels find a difference as often as the exact power says."""

from math import sqrt

import numpy as np
import pytest

from diagnose.sensory import (
    METHODS,
    SingleGlasses,
    chance_to_find,
    fisher_p,
    power_a_not_a,
    read_tasting,
    share_right,
)

PANELS = 20_000


@pytest.mark.parametrize("d", [0.0, 1.0, 2.0])
@pytest.mark.parametrize("answers", [9, 15])
@pytest.mark.parametrize("test", sorted(METHODS))
def test_panels_find_a_difference_as_often_as_the_power_says(test, answers, d):
    method, random = METHODS[test], np.random.default_rng([answers, int(d)])
    share = float(share_right(method, d))
    rights = random.binomial(answers, share, PANELS)
    shown = [
        read_tasting(method, x, answers).verdict in {"shown", "shown_but_small"}
        for x in range(answers + 1)
    ]
    power = chance_to_find(method, answers, 0.1, share)
    error = sqrt(power * (1 - power) / PANELS)
    assert np.array(shown)[rights].mean() == pytest.approx(power, abs=4 * error + 1e-9)


@pytest.mark.parametrize("d", [0.0, 1.5])
def test_single_glasses_find_a_difference_as_often_as_the_power_says(d):
    random = np.random.default_rng(31)
    hits = (random.normal(d, size=(PANELS, 8)) > d / 2).sum(axis=1)
    false = (random.normal(0, size=(PANELS, 8)) > d / 2).sum(axis=1)
    shown = np.array(
        [[fisher_p(SingleGlasses(h, 8, f, 8)) <= 0.1 for f in range(9)] for h in range(9)]
    )
    power = power_a_not_a(8, d, 0.1)
    error = sqrt(power * (1 - power) / PANELS)
    assert shown[hits, false].mean() == pytest.approx(power, abs=4 * error)
