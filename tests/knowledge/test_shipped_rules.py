"""The shipped rule base: whole, sound, without a ring, and found under the words people use."""

import math

import networkx as nx
import pytest

from diagnose.knowledge import Cause, causal_graph, fold, paths_between, rule_faults
from tests.knowledge.shipped import case_ids, rule_base

CAUSES = sorted(rule_base().causes)
DESCRIPTORS = sorted(rule_base().descriptors)
LISTS = ("styles", "yeasts")


def test_the_shipped_rule_base_has_no_fault() -> None:
    assert [str(fault) for fault in rule_faults(rule_base(), frozenset(case_ids()))] == []


def test_the_graph_has_no_ring() -> None:
    assert nx.is_directed_acyclic_graph(causal_graph(rule_base()))


def test_every_link_of_the_graph_goes_one_layer_down() -> None:
    steps = {(start[0], end[0]) for start, end in causal_graph(rule_base()).edges}
    assert steps == {("causes", "compounds"), ("compounds", "descriptors")}


def test_no_link_of_the_graph_is_certain_or_impossible() -> None:
    strengths = [strength for *_, strength in causal_graph(rule_base()).edges(data="strength")]
    assert all(0.0 < strength < 1.0 for strength in strengths)


@pytest.mark.parametrize("cause", CAUSES)
def test_every_cause_reaches_a_flavour(cause: str) -> None:
    reached = nx.descendants(causal_graph(rule_base()), ("causes", cause))
    assert any(kind == "descriptors" for kind, _ in reached)


@pytest.mark.parametrize("cause", CAUSES)
def test_every_cause_is_possible_in_some_home_batches(cause: str) -> None:
    rules = rule_base()
    for condition in rules.causes[cause].possible_when:
        typical = rules.measures[condition.measure].typical
        assert sum(share for value, share in typical if value in condition.any_of) > 0.0


def chance_to_show(cause: Cause) -> float:
    """Chance that a cause acts on a home batch and makes at least one compound noticeable."""
    rules = rule_base()
    possible = math.prod(
        sum(s for value, s in rules.measures[one.measure].typical if value in one.any_of)
        for one in cause.possible_when
    )
    makes = (card.made_by.get(cause.id) for card in rules.compounds.values())
    silent = math.prod(1.0 - strength.value for strength in makes if strength)
    return possible * cause.base_rate.value * (1.0 - silent)


def test_the_base_rates_leave_room_for_batches_without_a_fault() -> None:
    # Judgement: a critical nose finds nothing to fault in at least one home batch of five.
    assert math.prod(1.0 - chance_to_show(one) for one in rule_base().causes.values()) > 0.2


@pytest.mark.parametrize("word", ["butter", "wet_cardboard", "plaster", "sour_milk"])
def test_paths_come_strongest_first(word: str) -> None:
    rules = rule_base()
    for cause in CAUSES:
        strengths = [
            rules.compounds[compound].made_by[start].value
            * rules.compounds[compound].gives[end].value
            for start, compound, end in paths_between(rules, cause, word)
        ]
        assert strengths == sorted(strengths, reverse=True)


def test_every_path_of_the_graph_is_a_path_between_its_ends() -> None:
    graph, rules = causal_graph(rule_base()), rule_base()
    counted = sum(
        len(paths_between(rules, cause, word)) for cause in CAUSES for word in DESCRIPTORS
    )
    through = (
        graph.in_degree(node) * graph.out_degree(node) for node in graph if node[0] == "compounds"
    )
    assert counted == sum(through)


@pytest.mark.parametrize("kind", LISTS)
def test_every_name_of_a_style_or_yeast_leads_to_its_own_card(kind: str) -> None:
    rules = rule_base()
    called = {"styles": rules.style_called, "yeasts": rules.yeast_called}[kind]
    led_astray = [
        name
        for card in getattr(rules, kind).values()
        for name in (card.id, card.name, *card.aliases)
        if called(name) is not card
    ]
    assert led_astray == []


# Source of the table: common practice, no source; how brewers label a batch.
@pytest.mark.parametrize(
    ("typed", "style"),
    [
        ("ESB", "bitter"),
        ("best bitter", "bitter"),
        ("Märzen", "amber_lager"),
        ("Kölsch", "kolsch"),
        ("Hefeweizen", "wheat_ale"),
        ("West-Coast IPA", "ipa"),
        ("milk stout", "sweet_stout"),
        ("oatmeal  stout", "sweet_stout"),
        ("pale_ale", "pale_ale"),
        ("Irish stout", "dry_stout"),
        ("a beer of my own", None),
    ],
)
def test_a_style_is_found_as_it_is_typed(typed: str, style: str | None) -> None:
    found = rule_base().style_called(typed)
    assert (found.id if found else None) == style


# Source of the table: common practice, no source; how brewers name a yeast without its maker.
@pytest.mark.parametrize(
    ("typed", "yeast"),
    [
        ("Kveik", "farmhouse_hot"),
        ("lager yeast", "lager"),
        ("Bottom-fermenting yeast", "lager"),
        ("American ale", "clean_ale"),
        ("English_Ale", "english_ale"),
        ("weizen yeast", "wheat_ale"),
        ("brett", "brett_mixed"),
        ("French saison yeast", "saison"),
        ("baker's yeast", "bakers"),
    ],
)
def test_a_yeast_is_found_as_it_is_typed(typed: str, yeast: str | None) -> None:
    found = rule_base().yeast_called(typed)
    assert (found.id if found else None) == yeast


def test_folding_twice_changes_nothing() -> None:
    assert fold(fold("  West-Coast_IPA ")) == fold("  West-Coast_IPA ") == "west coast ipa"


def test_find_gives_every_card_of_an_id_with_its_kind() -> None:
    assert [kind for kind, _ in rule_base().find("lager")] == ["yeasts"]
    assert rule_base().find("no_such_card") == []
