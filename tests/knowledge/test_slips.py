"""A slip in a card is found, and named with its file, line, key, what is there and what is wanted.

All slips of a kind are made in one copy of the shipped rules: each must be found, and nothing
else may be found fault with.
"""

import pytest

from diagnose.errors import Fault, UnusableInput
from diagnose.knowledge import load_rules, rule_faults
from tests.knowledge.misfits import MISFITS
from tests.knowledge.shipped import case_ids, rule_base
from tests.knowledge.slip import Slip, copy_with
from tests.knowledge.strangers import STRANGERS
from tests.knowledge.unreadable import UNREADABLE

ILL_FITTING = (*STRANGERS, *MISFITS)


def names(slips: tuple[Slip, ...]) -> dict[str, object]:
    return {"argvalues": slips, "ids": [slip.name.replace(" ", "_") for slip in slips]}


@pytest.fixture(scope="module")
def unreadable(tmp_path_factory: pytest.TempPathFactory) -> tuple[set[Fault], dict[str, Fault]]:
    """The faults that loading reports, and those it must, by slip."""
    rules = copy_with(UNREADABLE, tmp_path_factory.mktemp("unreadable"))
    with pytest.raises(UnusableInput) as refusal:
        load_rules(rules)
    return set(refusal.value.faults), {slip.name: slip.fault(rules) for slip in UNREADABLE}


@pytest.fixture(scope="module")
def ill_fitting(tmp_path_factory: pytest.TempPathFactory) -> tuple[set[Fault], dict[str, Fault]]:
    """The faults that the lint adds to those of the shipped rules, and those it must."""
    rules = copy_with(ILL_FITTING, tmp_path_factory.mktemp("ill_fitting"))
    cases = frozenset(case_ids())
    found = set(rule_faults(load_rules(rules), cases)) - set(rule_faults(rule_base(), cases))
    return found, {slip.name: slip.fault(rules) for slip in ILL_FITTING}


@pytest.mark.parametrize("slip", **names(UNREADABLE))
def test_a_card_that_cannot_be_read_is_named(
    slip: Slip, unreadable: tuple[set[Fault], dict[str, Fault]]
) -> None:
    found, wanted = unreadable
    assert wanted[slip.name] in found


@pytest.mark.parametrize("slip", **names(ILL_FITTING))
def test_a_card_that_does_not_fit_the_others_is_named(
    slip: Slip, ill_fitting: tuple[set[Fault], dict[str, Fault]]
) -> None:
    found, wanted = ill_fitting
    assert wanted[slip.name] in found


def test_loading_blames_nothing_but_the_slips(
    unreadable: tuple[set[Fault], dict[str, Fault]],
) -> None:
    found, wanted = unreadable
    assert found <= set(wanted.values())


def test_the_lint_blames_nothing_but_the_slips(
    ill_fitting: tuple[set[Fault], dict[str, Fault]],
) -> None:
    found, wanted = ill_fitting
    assert found <= set(wanted.values())


def test_a_fault_reads_as_one_line(unreadable: tuple[set[Fault], dict[str, Fault]]) -> None:
    fault = unreadable[1]["a share of nothing"]
    assert str(fault) == (
        f"rules/causes/cleaner_residue.yaml:{fault.line}: circumstances.course.shares: found a "
        "share of 0; wanted every share above 0 (nothing is impossible)"
    )
