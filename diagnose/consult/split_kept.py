"""Readings kept beside their panels, and what the pairs of a split taught together."""

import json
import re
from collections.abc import Mapping
from math import prod
from pathlib import Path
from typing import Any

from diagnose.answers.splits import SplitRead
from diagnose.consult.split_files import PANEL, PLAN, plan_at, write_whole
from diagnose.documents import read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.trial.plan import Plan
from diagnose.trial.readings import NOTHING_TAUGHT, Taught, plan_after

READING = "reading.json"
_FURTHER = re.compile(r"pair-\d+")


def keep_reading(folder: Path, answer: SplitRead) -> None:
    """Write a reading down beside its panel, as `split read --json` prints it."""
    told = answer.model_dump(mode="json", by_alias=True)
    write_whole(folder / READING, f"{json.dumps(told, indent=1, ensure_ascii=False)}\n")


def reading_kept(folder: Path) -> Mapping[str, Any] | None:
    """The reading kept in a folder, if its panel was read.

    Raises:
        UnusableInput: the file was changed past use.
    """
    file = folder / READING
    if not file.is_file():
        return None
    try:
        told = json.loads(read_text(file))
        _ = {str(line["cause"]): float(line["ratio"]) for line in told["ratios"]}
    except (ValueError, KeyError, TypeError):
        wanted = "what `faultwort split read` wrote; read the panel again"
        raise UnusableInput(Fault(str(file), 0, "", "something else", wanted)) from None
    return told if isinstance(told, dict) else None


def start_of(plan: Plan, folder: Path) -> tuple[Plan, tuple[str, ...]]:
    """The plan with the ranking that a panel starts from, and what is to be said of it.

    Args:
        plan: the plan as it was written down.
        folder: that of the panel.
    """
    panels = _panels(_base(folder))
    here = next((n for n, one in enumerate(panels) if one.resolve() == folder.resolve()), 0)
    if not here:
        return plan, ()
    before = [reading_kept(one) for one in panels[:here]]
    if not any(before):
        return plan, (
            "the pair before this one was not read yet, so this starts from the plan: read that "
            "one, then this one again",
        )
    return plan_after(plan, _together(before)), ("starts from what the pair before this one left",)


def taught_by(folder: Path | None) -> Taught:
    """What a split taught with all its pairs, and with the splits that it was planned after.

    Raises:
        UnusableInput: there is no split in the folder, or none of its panels was read.
    """
    if folder is None:
        return NOTHING_TAUGHT
    base = _base(folder)
    plan = plan_at(base).plan
    found = [reading_kept(one) for one in _panels(base)]
    if not any(found):
        wanted = "the folder of a split that was read with `faultwort split read`"
        raise UnusableInput(Fault(str(folder), 0, "", "a split that was not read", wanted))
    told = {"ratios": [{"cause": one, "ratio": ratio} for one, ratio in plan.taught.items()]}
    return Taught(plan.fault, _together([told, *found]))


def _base(folder: Path) -> Path:
    """The folder of the plan, from that of any of its pairs."""
    within = folder.resolve()
    is_further = bool(_FURTHER.fullmatch(within.name)) and (within.parent / PLAN).is_file()
    return within.parent if is_further else folder


def _panels(base: Path) -> list[Path]:
    """Folders of a split's panels, the first pair first."""
    further = [one for one in base.glob("pair-*") if _FURTHER.fullmatch(one.name)]
    return [
        one
        for one in (base, *sorted(further, key=lambda one: int(one.name.removeprefix("pair-"))))
        if (one / PANEL).is_file()
    ]


def _together(readings: list[Mapping[str, Any] | None]) -> dict[str, float]:
    """The ratio on each cause; several pairs are several lessons, so theirs multiply."""
    ratios: dict[str, list[float]] = {}
    for told in readings:
        for line in told["ratios"] if told else ():
            ratios.setdefault(str(line["cause"]), []).append(float(line["ratio"]))
    return {cause: prod(found) for cause, found in ratios.items()}
