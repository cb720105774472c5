"""A caution as it is shown."""

from typing import Literal

from diagnose.answers.part import Said


class CautionLine(Said):
    """A caution, shown before anything else when its level is stop or warn."""

    level: Literal["stop", "warn", "note"]
    text: str
