"""What beer it is: the yeast family and style that the record names."""

from dataclasses import dataclass

from diagnose.batch import Batch, NotLogged
from diagnose.documents import Path
from diagnose.errors import Fault, UnusableInput, one_of
from diagnose.knowledge import RuleBase, Style, YeastFamily


@dataclass(frozen=True)
class Beer:
    """Yeast family and style; None where the record does not say.

    A style whose yeast is not logged is taken with its usual yeast (`yeast_assumed`).
    """

    yeast: YeastFamily | None
    style: Style | None
    yeast_assumed: bool

    @property
    def yeast_id(self) -> str | None:
        """The yeast family's id."""
        return self.yeast.id if self.yeast else None

    @property
    def style_id(self) -> str | None:
        """The style's id."""
        return self.style.id if self.style else None


def beer_of(rules: RuleBase, batch: Batch) -> Beer:
    """The beer of a record.

    Raises:
        UnusableInput: a style or yeast family the rule base does not know, with its line.
    """
    record = batch.record
    style = yeast = None
    faults = []
    if not isinstance(record.style, NotLogged):
        style = rules.style_called(record.style)
        if style is None:
            faults.append(_unknown(batch, ("style",), record.style, list(rules.styles)))
    family = record.pitch.yeast.family
    if not isinstance(family, NotLogged):
        yeast = rules.yeast_called(family)
        if yeast is None:
            where = ("pitch", "yeast", "family")
            faults.append(_unknown(batch, where, family, list(rules.yeasts)))
    if faults:
        raise UnusableInput(*faults)
    if yeast is None and style is not None:
        return Beer(rules.yeasts[style.yeast], style, yeast_assumed=True)
    return Beer(yeast, style, yeast_assumed=False)


def _unknown(batch: Batch, path: Path, found: str, known: list[str]) -> Fault:
    wanted = f"{one_of(found, known)}, or 'unknown'"
    return batch.document.fault(path, repr(found), wanted)
