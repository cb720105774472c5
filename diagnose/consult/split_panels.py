"""Ballots made and entered."""

from dataclasses import dataclass
from pathlib import Path
from random import Random

from diagnose.answers.caution import CautionLine
from diagnose.answers.splits import BallotEntered, BallotsMade
from diagnose.consult.split_files import BOX, CHECK, append_line, box_at, panel_at
from diagnose.consult.split_learning import few_answers
from diagnose.consult.split_planning import cautions_of
from diagnose.consult.type_next import after_entry, command
from diagnose.documents import parse_yaml, read_text
from diagnose.sensory import DIFFERENCE_FROM_CONTROL
from diagnose.trial.ballots import Box, Typed, ballot_of, line_of
from diagnose.trial.fitting import counting_method
from diagnose.trial.panel import BallotsAsked, Panel, Served, require_servable, serve
from diagnose.trial.plan import Plan
from diagnose.trial.safety import MOST_GLASSES, alcohol_of, alcohol_words
from diagnose.trial.sealing import Key, commitment_of, key_of


@dataclass(frozen=True)
class PouredPanel:
    """A panel as drawn: what may be shown, what is poured from which vessel, and the key.

    `few` says how little it can show where it is small; `cautions` are those of the plan.
    """

    panel: Panel
    key: Key
    vessels: dict[str, int]
    few: tuple[str, ...]
    cautions: tuple[CautionLine, ...]


def pour(plan: Plan, asked: BallotsAsked, secret: tuple[int, str]) -> PouredPanel:
    """Draw a panel.

    Args:
        plan: the plan.
        asked: who tastes what.
        secret: the seed of the draw, and a salt that nobody can guess.

    Raises:
        UnusableInput: a panel that may not or cannot be held.
    """
    require_servable(plan, asked)
    served = serve(asked, Random(secret[0]))
    key = key_of(served, asked.arms, asked.pair, secret)
    vessels = {v.arm: v.number for v in plan.vessels if v.pair == asked.pair}
    side = {"S": vessels[asked.arms[0]], "O": vessels[asked.arms[1]]}
    poured = {code: side[arm] for code, arm in served.arms.items()}
    poured |= {f"open {place}": side[arm] for place, arm in served.open_glass.items()}
    panel = _panel(plan, asked, served, commitment_of(key))
    few = few_answers(plan, counting_method(panel.test), len(panel.awaited))
    return PouredPanel(panel, key, poured, few, cautions_of(plan))


def _panel(plan: Plan, asked: BallotsAsked, served: Served, commitment: str) -> Panel:
    return Panel(
        batch=plan.batch,
        made=asked.made,
        test=asked.test,
        ask=plan.ask,
        rounds=asked.rounds,
        servings=served.servings,
        spares=tuple(one.taster for one in served.servings if "spare-" in one.taster),
        alcohol_percent=plan.alcohol_percent,
        alcohol_known=plan.alcohol_known,
        contains=plan.contains,
        commitment=commitment,
    )


def ballots_made(poured: PouredPanel, files: tuple[str, ...]) -> BallotsMade:
    """What was made, in words."""
    panel = poured.panel
    each = glasses_each(panel)
    remarks = [
        "print the pourer's sheet, give it to somebody who does not taste, and close the file",
        "the seal shows tampering; it is no lock. Nobody at the table looks into the folder",
    ]
    if each > MOST_GLASSES:
        remarks.append(f"{each} glasses each tire a palate: taste on two evenings")
    return BallotsMade(
        batch=panel.batch,
        test=panel.test,
        tasters=tuple(name for name in panel.tasters if name not in panel.spares),
        spares=panel.spares,
        answers=len(panel.awaited),
        glasses=len(poured.vessels),
        commitment=panel.commitment,
        files=files,
        few=poured.few,
        alcohol=alcohol_words(alcohol_of(each, panel.alcohol_percent), panel.alcohol_known),
        remarks=tuple(remarks),
        cautions=poured.cautions,
    )


def arms_words(folder: Path) -> str:
    """What stands against serving these arms; nothing where the check said to go ahead."""
    path = folder / CHECK
    if not path.is_file():
        typed = command("split", "check", "A.yaml", "B.yaml", "--plan", folder)
        return f"the arms were not compared yet; before you pour: {typed}"
    data = parse_yaml(read_text(path), str(path)).data
    if isinstance(data, dict) and data.get("advice") == "stop":
        return (
            "the last check of the arms said not to taste: a difference could well come from "
            "something else"
        )
    return ""


def glasses_each(panel: Panel) -> int:
    """Glasses of one taster, the open one counted once a round."""
    opened_too = panel.test in ("duo-trio", DIFFERENCE_FROM_CONTROL)
    return panel.rounds * (len(panel.servings[0].codes) + opened_too)


def enter(folder: Path, typed: Typed) -> BallotEntered:
    """Put a ballot into the box; it is on the disk when this returns.

    Raises:
        UnusableInput: see `ballot_of`; nothing is changed then.
    """
    panel, box = panel_at(folder), box_at(folder)
    ballot = ballot_of(panel, box, typed)
    append_line(folder / BOX, line_of(ballot))
    after = Box((*box.ballots, ballot), None, box.broken)
    missing = tuple(waited_for(panel, *one) for one in after.missing(panel))
    says = f"still missing: {', '.join(missing)}" if missing else "all ballots are in"
    answer = BallotEntered(
        taster=ballot.taster,
        round=ballot.round,
        in_=len(after.ballots),
        missing=missing,
        says=says,
    )
    return answer.model_copy(update={"type_next": after_entry(answer, str(folder))})


def waited_for(panel: Panel, taster: str, round_: int) -> str:
    """How a ballot that is waited for is named."""
    return taster if panel.rounds == 1 else f"{taster} (round {round_})"
