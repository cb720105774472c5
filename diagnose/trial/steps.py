"""The brew sheet of a split: what to do, with the moment of division marked."""

from diagnose.knowledge.causes import SplitHint
from diagnose.trial.fitting import counting_method
from diagnose.trial.plan import Arm, Factor, Step, Vessel
from diagnose.trial.safety import GLASS_ML
from diagnose.trial.stages import SPLIT_POINTS
from diagnose.units import Field, show

_FERMENTED = SPLIT_POINTS["dry_hop"].place
_FILLED = SPLIT_POINTS["packaging"].place


def setting_words(factors: tuple[Factor, ...], arm: Arm) -> str:
    """The settings of an arm: "tap water as it comes"."""
    settings = zip(factors, arm.settings, strict=True)
    return "; ".join(f.suspect if setting == "suspect" else f.other for f, setting in settings)


def steps_of(
    hint: SplitHint,
    arms: tuple[tuple[Arm, str], ...],
    vessels: tuple[Vessel, ...],
    litres: tuple[float, float],
    *,
    served: bool = True,
) -> tuple[Step, ...]:
    """The brew sheet.

    Args:
        hint: where it is split.
        arms: each arm with its settings in words.
        vessels: the vessels as drawn.
        litres: of the whole batch, and of each vessel.
        served: whether its beer may be tasted.
    """
    point = SPLIT_POINTS[hint.stage]
    whole, part = (show(volume, Field.VOLUME) for volume in litres)
    numbers = ", ".join(str(vessel.number) for vessel in vessels)
    left = litres[0] - litres[1] * len(vessels)
    rest = f" The other {show(left, Field.VOLUME)} go their usual way." if left >= 0.05 else ""
    drawn = [
        f"Vessel {vessel.number}: arm {vessel.arm}, {words}."
        for vessel in vessels
        for arm, words in arms
        if arm.label == vessel.arm
    ]
    return (
        Step(
            do=f"Number the vessels {numbers} before anything is in them: the lot has drawn which "
            "arm each one gets."
        ),
        Step(do=_before(point.place, whole)),
        Step(do=f"{point.moment} {part} into each vessel.{rest}", division=True),
        Step(do=" ".join(drawn)),
        Step(do=f"Mind: {point.trap}."),
        Step(
            do="Log both arms from here on, each in a record of its own: temperatures, gravities, "
            "times, every opening. Look at the clean arm first."
        ),
        *_after(point.place, hint.factor),
        *(_TO_THE_PANEL if served else (_COMPARED,)),
    )


_TO_THE_PANEL = (
    Step(
        do="Have somebody else relabel the packages with their vessel numbers alone. The "
        "brewer neither pours nor judges first."
    ),
    Step(do="Check the arms before the panel: `faultwort split check A B --plan plan.yaml`."),
)
_COMPARED = Step(
    do="Taste and serve nothing of it. Compare the arms by eye and by what you can measure: "
    "`faultwort split check A B --plan plan.yaml`."
)


def _before(place: int, whole: str) -> str:
    if place == 0:
        return f"Plan {whole} in all, as small brews side by side on one day."
    if place >= SPLIT_POINTS["storage"].place:
        return (
            "Take packages of one filling run, well mixed: shuffle them before you deal them out."
        )
    return f"Brew {whole} as one batch, as you always do, and change nothing else."


def _after(place: int, factor: str) -> tuple[Step, ...]:
    if place >= _FILLED:
        return (Step(do="Keep the packages side by side, but for the factor itself."),)
    steps = [
        Step(
            do="Package both arms on one day, that of the later one, filling in turn A, B, B, A, "
            "with the same gas, sugar and headspace."
        ),
        Step(do="Keep all packages in one place, mixed."),
    ]
    if place < _FERMENTED:
        steps.insert(
            0,
            Step(
                do=f"But for the factor itself ({factor}): same yeast, same temperature, same day "
                "of racking for all vessels; lids on, an airlock and a jar to each."
            ),
        )
    return tuple(steps)


def litres_needed(test: str, answers: int) -> float:
    """Beer of each arm that a panel drinks, with a tenth for loss and a bottle kept back [L].

    Args:
        test: the test.
        answers: number of answers.
    """
    glasses = 3 if test == "difference-from-control" else counting_method(test).glasses
    return answers * glasses / 2.0 * GLASS_ML / 1000.0 * 1.1 + 0.5
