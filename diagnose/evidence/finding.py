"""What the record and the probe log give for one measure."""

from dataclasses import dataclass

from diagnose.process import Band


@dataclass(frozen=True)
class NumberFinding:
    """A number with its range, in the measure's unit, and how it is said in a brewer's words."""

    measure: str
    band: Band
    says: str
    where: str


@dataclass(frozen=True)
class ClassFinding:
    """A class of a class measure."""

    measure: str
    value: str
    says: str
    where: str


@dataclass(frozen=True)
class OutsideFinding:
    """A measure whose model does not cover this batch; it is no evidence."""

    measure: str
    says: str
    where: str


Finding = NumberFinding | ClassFinding | OutsideFinding
