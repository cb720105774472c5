"""Planning a panel: how many answers, and which numbers are worse than fewer."""

from dataclasses import dataclass

from diagnose.answers.panels import PanelSizes, PoorSize, SizeLine
from diagnose.consult.panel_words import share_words
from diagnose.consult.type_next import after_sizes
from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import (
    A_NOT_A,
    METHODS,
    Method,
    dprime_from_share,
    first_and_safe,
    least_hits,
    name_of_test,
    panel_sizes,
    power_a_not_a,
    share_from_able,
    share_right,
)
from diagnose.sensory.refusing import (
    require_alpha,
    require_answers,
    require_dprime,
    require_share,
)

_GLASS_ML = 40.0
_BEER_ABV_PERCENT = 5.0
_ETHANOL_G_PER_ML = 0.789
# A ceiling of our own for one session, set low on purpose.
_SWALLOWED_G = 10.0
# Listing single-glass sizes beyond this takes long and helps nobody at home.
_MOST_SINGLE_GLASSES = 60
_FEWEST = 3
_USUAL_ABLE = 0.5


@dataclass(frozen=True)
class SizeAsked:
    """What a panel is to find: a distance d', or a share of tasters who can tell."""

    test: str
    alpha: float
    power: float
    dprime: float | None = None
    discriminators: float | None = None
    most: int = 30


def size_panel(asked: SizeAsked) -> PanelSizes:
    """The good numbers of answers for a test, and the poor ones.

    Raises:
        UnusableInput: something asked that cannot be.
    """
    require_alpha(asked.alpha)
    require_share("power", asked.power)
    require_answers(asked.most)
    if asked.dprime is not None and asked.discriminators is not None:
        wanted = "either --dprime or --discriminators"
        raise UnusableInput(Fault("panel", 0, "difference", "two sizes of it", wanted))
    test = name_of_test(asked.test)
    if test == A_NOT_A:
        found = _single_glass_sizes(asked)
        return found.model_copy(update={"type_next": after_sizes(found)})
    if test not in METHODS:
        wanted = "a test with right and wrong answers; for ratings plan 8 tasters or more"
        raise UnusableInput(Fault("panel", 0, "test", repr(asked.test), wanted))
    found = _forced_choice_sizes(METHODS[test], asked)
    return found.model_copy(update={"type_next": after_sizes(found)})


def _forced_choice_sizes(method: Method, asked: SizeAsked) -> PanelSizes:
    share, difference = _difference(method, asked)
    found = panel_sizes(method, share, alpha=asked.alpha, power=asked.power, most=asked.most)
    fits = found.first is not None and found.first <= asked.most
    good = tuple(
        SizeLine(
            answers=size.answers,
            least_correct=size.least_right,
            exact_alpha=size.exact_alpha,
            power=size.power,
            reaches=size.power >= asked.power,
        )
        for size in found.good
    )
    return PanelSizes(
        test=method.id,
        name=method.name,
        alpha=asked.alpha,
        power=asked.power,
        difference=difference,
        share_correct=share,
        first=found.first,
        safe=found.safe,
        most=asked.most,
        counted="right",
        good=good,
        poor=tuple(PoorSize(answers=size, better=better) for size, better in found.poor),
        says=_size_words(found.first, found.safe, asked),
        else_=() if fits else _what_else(method, share, found.first, asked),
        cautions=(_pouring_words(method.name, method.glasses, found.first, asked.most),),
    )


def _difference(method: Method, asked: SizeAsked) -> tuple[float, str]:
    if asked.dprime is not None:
        require_dprime(asked.dprime)
        return float(share_right(method, asked.dprime)), f"a difference of d' {asked.dprime:g}"
    able = _USUAL_ABLE if asked.discriminators is None else asked.discriminators
    require_share("discriminators", able)
    return share_from_able(method, able), f"a difference {share_words(able)} could taste"


def _size_words(first: int | None, safe: int | None, asked: SizeAsked) -> str:
    if first is None:
        return "no panel that could be gathered finds that difference with this test"
    if first > asked.most:
        return f"{first} answers would be needed, more than the {asked.most} on offer"
    if safe == first:
        return f"plan {first} answers or more"
    return f"plan {first} answers, or any number from {safe} on; between them some fall short"


def _what_else(
    method: Method, share: float, first: int | None, asked: SizeAsked
) -> tuple[str, ...]:
    dprime = dprime_from_share(method, share)
    offers = []
    for other in METHODS.values():
        gains = other.directed and not other.two_sided and not method.directed
        if not (gains or (other.id == "tetrad" and not method.directed)) or other is method:
            continue
        at = float(share_right(other, dprime))
        fewer, _ = first_and_safe(other, at, alpha=asked.alpha, power=asked.power)
        if fewer is not None and (first is None or fewer < first):
            offers.append(f"{_how(other)}: {fewer} answers find the same d' of {dprime:.2g}")
    if first is not None and first <= 12 * asked.most:
        rounds = -(-first // asked.most)
        offers.append(
            f"{rounds} rounds by {asked.most} tasters give {rounds * asked.most} answers; the "
            "result then speaks about these tasters, and needs fresh codes in every round"
        )
    offers.append("a stronger contrast: push the suspected cause in one half of the batch")
    return tuple(offers)


def _how(method: Method) -> str:
    return f"ask for the flavour by its name, {method.name}" if method.directed else method.name


def _pouring_words(name: str, glasses: int, answers: int | None, most: int) -> str:
    planned = min(answers or most, most)
    grams = glasses * _GLASS_ML * _BEER_ABV_PERCENT / 100.0 * _ETHANOL_G_PER_ML
    swallowed = max(int(_SWALLOWED_G / grams), 1)
    return (
        f"{planned} answers are {planned * glasses} glasses. At {_GLASS_ML:.0f} ml of a "
        f"{_BEER_ABV_PERCENT:.0f} % beer one {name} is about {grams:.0f} g of alcohol if "
        f"swallowed: offer a spit cup, and let nobody swallow more than {swallowed} in a "
        "session. Nobody who tasted drives; nobody under age, pregnant or told to avoid "
        "alcohol tastes. Local guidance and a doctor's word come before this note."
    )


def _single_glass_sizes(asked: SizeAsked) -> PanelSizes:
    if asked.dprime is None:
        wanted = "--dprime, such as 1.5: single glasses know no share of tasters who can tell"
        raise UnusableInput(Fault("panel", 0, "difference", "none for this test", wanted))
    if asked.most > _MOST_SINGLE_GLASSES:
        wanted = f"at most {_MOST_SINGLE_GLASSES} glasses of each beer for this test"
        raise UnusableInput(Fault("panel", 0, "most", str(asked.most), wanted))
    sizes = range(_FEWEST, max(asked.most, _FEWEST) + 1)
    powers = {size: power_a_not_a(size, asked.dprime, asked.alpha) for size in sizes}
    short = [size for size in sizes if powers[size] < asked.power]
    first = next((size for size in sizes if powers[size] >= asked.power), None)
    safe = None if first is None else max([*short, first - 1]) + 1
    good, poor = _sorted_sizes(powers, asked)
    return PanelSizes(
        test=A_NOT_A,
        name="A-not-A test",
        alpha=asked.alpha,
        power=asked.power,
        difference=f"a difference of d' {asked.dprime:g}",
        share_correct=None,
        first=first,
        safe=safe if safe is not None and safe <= asked.most else None,
        most=asked.most,
        counted="hits without a false alarm",
        good=good,
        poor=poor,
        says=f"glasses of each beer: {_size_words(first, safe, asked)}",
        else_=()
        if first
        else ("side by side: a paired test finds the same d' with fewer answers",),
        cautions=(_pouring_words("pair of glasses", 2, first, asked.most),),
    )


def _sorted_sizes(
    powers: dict[int, float], asked: SizeAsked
) -> tuple[tuple[SizeLine, ...], tuple[PoorSize, ...]]:
    good: list[SizeLine] = []
    poor: list[PoorSize] = []
    for size, power in powers.items():
        rivals = [line for line in good if line.power >= power]
        if rivals:
            poor.append(PoorSize(answers=size, better=rivals[0].answers))
        elif (hits := least_hits(size, 0, asked.alpha)) is not None:
            reaches = power >= asked.power
            good.append(
                SizeLine(
                    answers=size,
                    least_correct=hits,
                    exact_alpha=power_a_not_a(size, 0.0, asked.alpha),
                    power=power,
                    reaches=reaches,
                )
            )
    return tuple(good), tuple(poor)
