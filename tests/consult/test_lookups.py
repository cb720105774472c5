"""The rule base and a record looked up: every card has words, every entry and measure a line."""

import pytest
import yaml

from diagnose.consult import (
    card_sheet,
    check_batch,
    describe_probe,
    explain_card,
    list_cards,
    network_for,
    show_batch,
)
from diagnose.consult.cards import LISTED
from diagnose.errors import UnusableInput
from tests.casebook.replayed import consultation_of
from tests.consult.asked import asked
from tests.knowledge.shipped import case_ids, rule_base

CARDS = sorted({card_id for _, card_id in rule_base().places})
LOGGED = [one for one in case_ids() if consultation_of(one).log is not None]
every_case = pytest.mark.parametrize("case_id", case_ids())


@pytest.mark.parametrize("card_id", CARDS)
def test_every_card_can_be_explained(card_id: str) -> None:
    answer = explain_card(rule_base(), card_id)
    assert answer.id == card_id
    assert answer.says or answer.passages or answer.kind == "constants"


@pytest.mark.parametrize("card_id", CARDS)
def test_every_card_is_shown_as_it_stands_in_its_file(card_id: str) -> None:
    sheet = card_sheet(rule_base(), card_id)
    data = yaml.safe_load(sheet["text"])
    (card,) = data if isinstance(data, list) else [data]
    assert card["id"] == card_id


@pytest.mark.parametrize("cause", sorted(rule_base().causes))
def test_a_cause_is_explained_down_to_the_glass(cause: str) -> None:
    answer = explain_card(rule_base(), cause)
    assert answer.paths
    assert all(path[0] == cause for path in answer.paths)


@pytest.mark.parametrize("kind", ["causes", "compounds", "checks"])
def test_an_explained_card_names_its_sources(kind: str) -> None:
    rules = rule_base()
    for card_id in getattr(rules, kind):
        if kind == "compounds" and rules.compounds[card_id].noticed_from is None:
            continue
        assert explain_card(rules, card_id).sources


def test_an_unknown_card_is_refused_with_one_that_is_near() -> None:
    with pytest.raises(UnusableInput) as refusal:
        explain_card(rule_base(), "overprimd")
    assert "overprimed" in str(refusal.value)


def test_an_unknown_kind_of_card_is_refused_with_those_there_are() -> None:
    with pytest.raises(UnusableInput) as refusal:
        list_cards(rule_base(), "reasons")
    assert "causes, compounds" in str(refusal.value)


@pytest.mark.parametrize("kind", LISTED)
def test_a_list_of_cards_has_every_card_of_its_kind(kind: str) -> None:
    answer = list_cards(rule_base(), kind)
    assert [line.id for line in answer.cards] == list(getattr(rule_base(), kind))
    assert answer.counts == {kind: len(answer.cards)}


def test_the_list_of_kinds_counts_them_all() -> None:
    answer = list_cards(rule_base(), None)
    assert answer.counts == {kind: len(getattr(rule_base(), kind)) for kind in LISTED}


# Source of the table: first principles; slips on the command line.
@pytest.mark.parametrize(
    ("yeast", "style", "place"), [("bread", None, "--yeast"), (None, "bread", "--style")]
)
def test_a_network_of_an_unknown_beer_is_refused(
    yeast: str | None, style: str | None, place: str
) -> None:
    with pytest.raises(UnusableInput) as refusal:
        network_for(rule_base(), yeast, style)
    assert str(refusal.value).startswith(place)


def test_a_network_is_that_of_the_yeast_named() -> None:
    plain, wheat = (
        network_for(rule_base(), yeast, None) for yeast in ("lager yeast", "hefeweizen yeast")
    )
    at = plain.compound_index["isoamyl_acetate"]
    assert wheat.expected[at] > plain.expected[at]


@every_case
def test_every_measure_of_a_record_is_shown_or_called_open(case_id: str) -> None:
    answer = show_batch(rule_base(), consultation_of(case_id))
    assert len(answer.measures) + len(answer.open_measures) == len(rule_base().measures)


@every_case
def test_every_entry_shown_stands_on_a_line_of_the_record(case_id: str) -> None:
    consultation = consultation_of(case_id)
    lines = (consultation.batch.folder / "batch.yaml").read_text(encoding="utf-8").splitlines()
    for entry in show_batch(rule_base(), consultation).entries:
        assert entry.key.split(".")[-1].split("[")[0] in lines[entry.line - 1]


@every_case
def test_as_many_entries_are_counted_as_are_shown(case_id: str) -> None:
    consultation = consultation_of(case_id)
    shown = show_batch(rule_base(), consultation)
    assert check_batch(rule_base(), consultation).entries == len(shown.entries)


@every_case
def test_a_number_shown_lies_within_its_range(case_id: str) -> None:
    for measure in show_batch(rule_base(), consultation_of(case_id)).measures:
        if measure.low is not None and measure.mid is not None and measure.high is not None:
            assert measure.low <= measure.mid <= measure.high


@pytest.mark.parametrize("case_id", LOGGED)
def test_a_probe_log_is_described_as_it_was_read(case_id: str) -> None:
    log = consultation_of(case_id).log
    assert log is not None
    answer = describe_probe(log)
    assert answer.sha256 == log.sha256
    assert {series.role.replace(" ", "_") for series in answer.series} == set(log.series)
    assert all(0 <= series.usable <= series.readings for series in answer.series)
    assert answer.first < answer.last


def test_an_odd_entry_is_pointed_out_with_its_line() -> None:
    odd = check_batch(
        rule_base(), asked("", "gravity:\n  original: 1.050\n  final: 1.040")
    ).odd_entries
    assert [line.place for line in odd] == ["batch.yaml:3"]
