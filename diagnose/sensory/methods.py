"""The forced-choice tests: what is asked, and how often luck is right."""

import re
from dataclasses import dataclass

from diagnose.errors import Fault, UnusableInput


@dataclass(frozen=True)
class Method:
    """A forced-choice test.

    `guess` is the chance of being right by luck; `rule` names the way in which a taster
    decides, see `psychometric`. A directed test asks for a flavour by its name.
    """

    id: str
    name: str
    guess: float
    glasses: int
    rule: str
    directed: bool = False
    two_sided: bool = False


_THIRD = 1.0 / 3.0
_ALL = (
    Method("triangle", "triangle test", _THIRD, 3, "triangle"),
    Method("duo-trio", "duo-trio test", 0.5, 3, "duo-trio"),
    Method("2-afc", "paired test (2-AFC)", 0.5, 2, "2-afc", directed=True),
    Method("2-afc-two-sided", "two-sided paired test", 0.5, 2, "2-afc", True, True),
    Method("3-afc", "3-AFC test", _THIRD, 3, "3-afc", directed=True),
    Method("tetrad", "tetrad test", _THIRD, 4, "tetrad"),
    Method(
        "tetrad-specified", "specified tetrad test", 1 / 6, 4, "tetrad-specified", directed=True
    ),
)
METHODS = {method.id: method for method in _ALL}
A_NOT_A = "a-not-a"
DIFFERENCE_FROM_CONTROL = "difference-from-control"
_SPELLINGS = {
    **{re.sub(r"[^a-z0-9]", "", name): name for name in METHODS},
    **{"anota": A_NOT_A, "differencefromcontrol": DIFFERENCE_FROM_CONTROL},
    **{"paired": "2-afc", "pairedcomparison": "2-afc", "twoafc": "2-afc", "threeafc": "3-afc"},
    **{"twosided": "2-afc-two-sided", "pairedtwosided": "2-afc-two-sided"},
    **{"specifiedtetrad": "tetrad-specified", "dfc": DIFFERENCE_FROM_CONTROL},
}


def name_of_test(word: str) -> str:
    """The id of a test from what was typed.

    Raises:
        UnusableInput: no test goes by that name.
    """
    found = _SPELLINGS.get(re.sub(r"[^a-z0-9]", "", word.casefold()))
    if found is None:
        known = ", ".join((*METHODS, A_NOT_A, DIFFERENCE_FROM_CONTROL))
        raise UnusableInput(Fault("panel", 0, "test", repr(word), f"one of {known}"))
    return found


def method_named(word: str) -> Method:
    """The forced-choice test from what was typed.

    Raises:
        UnusableInput: no forced-choice test goes by that name.
    """
    method = METHODS.get(name_of_test(word))
    if method is None:
        wanted = f"a test with right and wrong answers: {', '.join(METHODS)}"
        raise UnusableInput(Fault("panel", 0, "test", repr(word), wanted))
    return method
