"""Where a brew can be divided, what that takes, and what it leaves shared."""

from dataclasses import dataclass


@dataclass(frozen=True)
class SplitPoint:
    """The latest moment at which a factor of one stage can be split.

    `place` orders the moments from grain to glass. `brew_days` and `hours` are extra work
    compared with an undivided batch; judgement. `days_from_brew` is how long after the brew it is
    divided: 0 on the day itself, and where the packages are there already; practice.
    """

    place: int
    moment: str
    brew_days: float
    hours: float
    kit: str
    trap: str
    days_from_brew: int = 0


# A beer is dry hopped when its gravity stands still, and moved or packaged at two weeks. Practice.
_STILL, _READY = 10, 14

_MASHES = SplitPoint(
    0,
    "Two mashes from the start: nothing is shared but the sacks, the kit and the day.",
    1.0,
    6.0,
    "a second small mash and kettle",
    "gravity and pH differ: bring both worts to one gravity with boiled water before the yeast",
)
_COOLED = SplitPoint(
    5,
    "Divide the cooled, settled wort: fill the vessels in turn, in five or six small portions.",
    0.0,
    1.5,
    "a second fermenter of the same kind",
    "trub and air taken up at the division; keep the portions small and the falls equal",
)
_PACKAGES = SplitPoint(
    9,
    "Divide at the filling head: fill the arms in turn, A, B, B, A, from one vessel.",
    0.0,
    0.75,
    "labels, and six bottles or more for each arm",
    "the order of filling, and the air in the last bottles",
    _READY,
)
_GLASS = SplitPoint(
    11,
    "Divide at the tap: same package, same hour.",
    0.0,
    0.25,
    "nothing but glasses",
    "the order of pouring: the first glass is never the same as the second",
)
SPLIT_POINTS = {
    "ingredients": _MASHES,
    "recipe": _MASHES,
    "water": _MASHES,
    "mash": SplitPoint(1, _MASHES.moment, 1.0, 6.0, _MASHES.kit, _MASHES.trap),
    "sparge": SplitPoint(
        2,
        "Divide the grain bed's run-off: two sparges, then two boils.",
        0.5,
        4.0,
        "a second kettle",
        "gravity: boil both to one gravity and volume",
    ),
    "boil": SplitPoint(
        3,
        "Divide the sweet wort before the boil: fill the kettles in turn from the run-off.",
        0.5,
        3.0,
        "a second kettle",
        "evaporation: end both at one gravity with boiled water, hops by the litre",
    ),
    "chill": SplitPoint(
        4,
        "Divide at the end of the boil: draw both parts while the kettle still turns.",
        0.0,
        2.0,
        "a second lidded pot of the same metal, and a thermometer",
        "trub carried over and air taken up on the way",
    ),
    "equipment": _COOLED,
    "contamination": _COOLED,
    "pitch": _COOLED,
    "fermentation": SplitPoint(
        6,
        "Divide the pitched wort: stir, then fill the vessels in turn in small portions.",
        0.0,
        1.5,
        "a second fermenter of the same kind, and a place of its own temperature if that is the "
        "factor",
        "one probe for two fermenters: log both, and swap the places in the repeat",
    ),
    "dry_hop": SplitPoint(
        7,
        "Divide at the end of fermentation: move both parts alike, under gas if you have it.",
        0.0,
        1.0,
        "a second vessel that fills to the neck",
        "air: open the other arm for as long, even if nothing goes in",
        _STILL,
    ),
    "transfer": SplitPoint(
        8,
        "Divide at the transfer: draw the parts in turn.",
        0.0,
        1.0,
        "a second clean vessel",
        "air in the part that waits",
        _READY,
    ),
    "cleaning": _PACKAGES,
    "packaging": _PACKAGES,
    "storage": SplitPoint(
        10,
        "Divide the filled packages: shuffle them, then deal them out to the two places.",
        0.0,
        0.25,
        "a second place to keep bottles",
        "hardly any if the bottles are dealt at random: this is the cleanest split there is",
    ),
    "serving": _GLASS,
    "taster": _GLASS,
}
# Rivals of these stages may act anywhere, whatever the division has in common.
ANYWHERE = frozenset({"cleaning", "equipment", "contamination", "taster"})


def acts_before(stage: str, split_stage: str) -> bool:
    """Whether whatever happens at `stage` is over, and shared, when the split is made."""
    if stage in ANYWHERE or stage not in SPLIT_POINTS:
        return False
    return SPLIT_POINTS[stage].place < SPLIT_POINTS[split_stage].place
