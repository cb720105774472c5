"""Which difference test fits a fault, and why."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.sensory import DIFFERENCE_FROM_CONTROL, METHODS, Method

# Flavours that stay in the mouth and tire it: bitter, astringent, smoky, solvent. Practice.
LINGERING = frozenset(
    {
        "ash_burnt",
        "bitter_bite",
        "hop_burn",
        "hot_alcohol",
        "husky",
        "nail_varnish",
        "smoke",
        "solvent",
        "tar",
        "tea_bag",
    }
)
TESTS_WITH_BALLOTS = ("triangle", "tetrad", "2-afc", "3-afc", "duo-trio", DIFFERENCE_FROM_CONTROL)


@dataclass(frozen=True)
class FittingTest:
    """The test for a fault, and the reason in words."""

    test: str
    why: str


def fitting_test(
    words: tuple[str, ...], named: bool, circumstances: Mapping[str, str]
) -> FittingTest:
    """The test that suits a fault.

    Args:
        words: its descriptors.
        named: whether somebody put a flavour word to it.
        circumstances: what is told of it.
    """
    if circumstances.get("spread") in ("some_packages", "one_package"):
        why = (
            "it is not in every bottle: rate each glass against a control, one of them in disguise"
        )
        return FittingTest(DIFFERENCE_FROM_CONTROL, why)
    if named and LINGERING & set(words):
        why = (
            "it lingers: three glasses tire less than four; a paired test (2-afc) finds more with "
            "as many tasters if they know the flavour well"
        )
        return FittingTest("triangle", why)
    if named:
        return FittingTest("2-afc", "it has a name: ask which glass has more of it")
    return FittingTest("tetrad", "nobody could name it: sort four glasses into two pairs")


def counting_method(test: str) -> Method:
    """The forced-choice test whose counts stand for a test.

    Ratings against a control count as pairs: was the test beer rated farther off than the
    control in disguise?
    """
    return METHODS["2-afc" if test == DIFFERENCE_FROM_CONTROL else test]


def is_directed(test: str) -> bool:
    """Whether the taster is asked for the fault by its name."""
    return test in ("2-afc", "3-afc")
