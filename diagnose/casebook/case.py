"""A worked case: a batch record, perhaps with a probe log, and what must come of it."""

from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict

from diagnose.documents import parse_yaml, read_as, read_text
from diagnose.errors import Fault, UnusableInput


class Expect(BaseModel):
    """What must come of a case.

    `first` are causes of which one must come first; `quiet` causes that must stay below
    `quiet_below`; `verdict` is one of these, where it matters; `asks` are questions, entries
    or checks of which one must be among the next steps; `expected_here` that the beer itself
    must be the likeliest explanation.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    first: tuple[str, ...] = ()
    quiet: tuple[str, ...] = ()
    quiet_below: float = 0.15
    verdict: tuple[Literal["separated", "close", "open", "two_faults", "expected"], ...] = ()
    asks: tuple[str, ...] = ()
    expected_here: bool = False
    cautions: tuple[Literal["stop", "warn", "note"], ...] = ()


class Exam(BaseModel):
    """The confirmed answer to a real account, mapped to causes before any result was seen.

    `truth` are the causes it names and `also` those accepted beside it; `verdict` says what
    kind of answer is right; `tier` how well it was confirmed (A best); `left_out` the entries
    of the account that give the answer away.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    truth: tuple[str, ...]
    also: tuple[str, ...] = ()
    verdict: Literal["fault", "normal", "ask_first", "no_fault_found"]
    tier: Literal["A", "B", "C"]
    scored: bool
    source: str
    left_out: tuple[str, ...] = ()


class CaseCard(BaseModel):
    """The card of a case: its title, its story, what it teaches and what must come of it."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    title: str
    story: str
    teaches: str
    pair: str | None = None
    demo: bool = False
    expect: Expect
    exam: Exam | None = None


class Case(BaseModel):
    """A case and the folder it stands in."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    card: CaseCard
    folder: Path


def read_cases(folder: Path) -> list[Case]:
    """Every case below a folder, by id.

    Raises:
        UnusableInput: no case there, or faults in the cases' cards, all at once.
    """
    cards = sorted(folder.rglob("case.yaml"))
    if not cards:
        raise UnusableInput(Fault(str(folder), 0, "", "no case.yaml below it", "a folder of cases"))
    cases: list[Case] = []
    faults: list[Fault] = []
    for path in cards:
        try:
            cases.append(Case(card=_read_card(path), folder=path.parent))
        except UnusableInput as error:
            faults += error.faults
    if faults:
        raise UnusableInput(*sorted(faults))
    return cases


def _read_card(path: Path) -> CaseCard:
    document = parse_yaml(read_text(path), str(path))
    card = read_as(document, CaseCard)
    if card.id != path.parent.name:
        raise UnusableInput(
            document.fault(("id",), card.id, f"the folder's name, {path.parent.name}")
        )
    return card


def demo_case(folder: Path) -> Case:
    """The case that the demo shows."""
    return next(case for case in read_cases(folder) if case.card.demo)
