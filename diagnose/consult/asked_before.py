"""What was asked before and nobody knew: the record says `unknown`."""

from collections.abc import Iterator
from typing import Any

from diagnose.batch import Batch
from diagnose.batch.entries import UNKNOWN
from diagnose.knowledge import RuleBase

# Sections whose keys are those of the questions.
_KEYED = ("fault", "checks")


def asked_in_vain(rules: RuleBase, batch: Batch) -> frozenset[str]:
    """The questions that a record answers with `unknown`: to ask them again is no use."""
    data = batch.document.data
    if not any(map(_is_unknown, _leaves(data))):
        return frozenset()
    # What closes a measure is looked up only for a record that leaves something unknown.
    from diagnose.consult.guided_measures import SLOTS_OF  # noqa: PLC0415
    from diagnose.consult.guided_slots import is_known, makes_sense  # noqa: PLC0415

    keyed = (data.get(section) for section in _KEYED)
    told = [section for section in keyed if isinstance(section, dict)]
    keys = {key for section in told for key, value in section.items() if _is_unknown(value)}
    keys |= {
        measure
        for measure in rules.measures
        for slot in SLOTS_OF.get(measure, ())
        if makes_sense(slot, data) and is_known(slot, data) is False
    }
    return frozenset(keys)


def _leaves(data: Any) -> Iterator[Any]:
    if isinstance(data, dict | list):
        for item in data.values() if isinstance(data, dict) else data:
            yield from _leaves(item)
    else:
        yield data


def _is_unknown(value: Any) -> bool:
    return isinstance(value, str) and value.strip().casefold() in UNKNOWN
