"""Which measures have no place in a batch: no mash without grain, no draught line on a bottle."""

from collections.abc import Callable
from typing import Final

from diagnose.evidence.facts import Facts
from diagnose.evidence.measures.waters import all_undosed
from diagnose.evidence.measures.yields import is_unmashed


def has_place(facts: Facts, measure: str) -> bool:
    """Whether a brewer could be asked for this measure of this batch at all."""
    is_idle = _IDLE.get(measure)
    return is_idle is None or not is_idle(facts)


def _is_bottled(facts: Facts) -> bool:
    return facts.record.packaging.package in ("bottle", "can")


_IDLE: Final[dict[str, Callable[[Facts], bool]]] = {
    **dict.fromkeys(
        ("mash_c", "mash_hours", "mash_ph", "sparge_ph", "sparge_c", "last_runnings_sg"),
        is_unmashed,
    ),
    "line_cleaned": _is_bottled,
    "disinfectant_treated": all_undosed,
}
