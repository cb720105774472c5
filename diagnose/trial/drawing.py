"""The arms of a split, and the draw that says which vessel gets which."""

from itertools import product
from random import Random

from diagnose.trial.plan import Arm, Design, Factor, Setting, Vessel

_SETTINGS: tuple[Setting, Setting] = ("suspect", "other")


def arms_of(factors: tuple[Factor, ...], design: Design) -> tuple[Arm, ...]:
    """The arms: A has every suspect setting, the last none of them.

    Args:
        factors: what differs.
        design: a 2x2 has all four arms, the others two.
    """
    if design == "2x2":
        every = product(_SETTINGS, repeat=len(factors))
        return tuple(
            Arm(label=label, settings=settings)
            for label, settings in zip("ABCD", every, strict=True)
        )
    return tuple(
        Arm(label=label, settings=tuple(setting for _ in factors))
        for label, setting in zip("AB", _SETTINGS, strict=True)
    )


def draw_vessels(arms: tuple[Arm, ...], pairs: int, random: Random) -> tuple[Vessel, ...]:
    """Vessels numbered from 1, their arms drawn afresh in every pair.

    Args:
        arms: the arms.
        pairs: how often the whole set of arms is made.
        random: the source of the draw.
    """
    vessels: list[Vessel] = []
    for pair in range(1, pairs + 1):
        labels = [arm.label for arm in arms]
        random.shuffle(labels)
        for label in labels:
            vessels.append(Vessel(number=len(vessels) + 1, arm=label, pair=pair))
    return tuple(vessels)
