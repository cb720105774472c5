"""A measure's card names the sources of every constant that the measure read."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest

import diagnose.evidence.facts as facts_module
from diagnose.evidence.measuring import COMPUTED, facts_of
from diagnose.process import Band
from diagnose.process.band import spread
from tests.evidence.records import batch_of
from tests.evidence.worked import Worked
from tests.evidence.worked_brewday import BREWDAY
from tests.evidence.worked_cellar import CELLAR
from tests.evidence.worked_wider import WIDER
from tests.knowledge.shipped import rule_base

COMPUTED_BY_ID = {function.__name__: function for function in COMPUTED}
WORKED = [one for one in (*BREWDAY, *CELLAR, *WIDER) if one.measure in COMPUTED_BY_ID]
# Atomic masses and the gas laws need no source where they only turn one unit into another.
PHYSICS = {"atomic_masses"}


class Watched(dict[str, Any]):
    """Constants that remember which of them were read."""

    def __init__(self, values: Mapping[str, Any], read: set[str]) -> None:
        super().__init__(values)
        self.read = read

    def __getitem__(self, name: str) -> Any:
        self.read.add(name)
        return super().__getitem__(name)


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> Iterator[set[str]]:
    """The constants that models read while the test runs."""
    names: set[str] = set()

    def watching(function: Any, entries: Mapping[str, Band], constants: Mapping[str, Band]) -> Band:
        if constants:
            middles = {key: band.mid for key, band in constants.items()}
            given = {key: band.mid for key, band in entries.items()}
            function(**given, constants=Watched(middles, names))
        return spread(function, entries, constants)

    monkeypatch.setattr(facts_module, "spread", watching)
    yield names


@pytest.mark.parametrize("worked", WORKED, ids=lambda one: one.measure)
def test_a_card_names_the_sources_of_the_constants_its_measure_reads(
    worked: Worked, read: set[str]
) -> None:
    rules = rule_base()
    facts = facts_of(rules, batch_of(worked.record), None)
    COMPUTED_BY_ID[worked.measure](replace(facts, constants=Watched(facts.constants, read)))
    sources = {rules.constants[name].source for name in read}
    assert sources - PHYSICS <= set(rules.measures[worked.measure].rests_on)


def test_the_sources_of_a_measure_are_read_off_something() -> None:
    assert sum(bool(card.rests_on) for card in rule_base().measures.values()) > 15
