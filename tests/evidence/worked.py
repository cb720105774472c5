"""A record small enough that its measure can be worked by hand."""

from typing import NamedTuple


class Worked(NamedTuple):
    """A record, and the middle value its measure must come to."""

    measure: str
    value: float
    record: str
