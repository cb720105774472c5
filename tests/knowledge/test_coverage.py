"""The published flavour terminology: every term is reached, and a broken entry is named."""

import re
from collections import Counter
from dataclasses import replace
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
import yaml

from diagnose.consult import coverage_of, explain_card
from diagnose.errors import UnusableInput
from diagnose.flavour import understand
from diagnose.knowledge import RuleBase, Term, causal_graph, load_rules, rule_faults, ways_to
from tests.knowledge.shipped import RULES, rule_base

RAW: list[dict[str, Any]] = yaml.safe_load((RULES / "coverage_1979.yaml").read_text("utf-8"))
TERMS = sorted(rule_base().terms)
every_term = pytest.mark.parametrize("code", TERMS)
# Meilgaard, Dalgliesh and Clapperton (1979), abstract: 44 first-tier terms and 78 more. One
# second-tier term too many is listed, among those that are recalled.
FIRST_TIER, SECOND_TIER, SURPLUS = 44, 78, 1


def term(code: str) -> Term:
    return rule_base().terms[code]


def test_the_terms_are_as_many_as_the_paper_counts_and_the_surplus_one() -> None:
    tiers = Counter(card.tier for card in rule_base().terms.values())
    assert tiers == {1: FIRST_TIER, 2: SECOND_TIER + SURPLUS}


@every_term
def test_a_term_is_reached_from_a_cause_along_the_graph(code: str) -> None:
    card, graph = term(code), causal_graph(rule_base())
    if card.fit == "none":
        assert card.reason
        return
    for word in card.descriptors:
        compounds = list(graph.predecessors(("descriptors", word)))
        assert any(list(graph.predecessors(compound)) for compound in compounds)


def test_only_hop_character_is_wanted_and_stands_for_no_fault() -> None:
    assert [term(code).name for code in TERMS if term(code).fit == "none"] == ["hoppy"]


# Words of the list that nobody types as a complaint: the first five are wanted in beer, the last
# two name a scale and not a fault.
NOT_TYPED = {"hoppy", "kettle-hop", "dry-hop", "malty", "creamy", "carbonation", "body"}


@pytest.mark.parametrize("code", [c for c in TERMS if term(c).name not in NOT_TYPED])
def test_who_types_a_term_is_heard_as_one_of_its_descriptors(code: str) -> None:
    card = term(code)
    heard = understand(card.name, rule_base().lexicon).heard
    taken = {h.descriptor for h in heard} | {other.id for h in heard for other in h.alternatives}
    assert taken & set(card.descriptors)


@every_term
def test_a_descriptor_with_the_number_of_a_term_stands_for_it(code: str) -> None:
    numbered = {card.id for card in rule_base().descriptors.values() if card.wheel == code}
    assert numbered <= set(term(code).descriptors)


@every_term
def test_a_descriptor_says_no_more_surely_than_the_term_that_its_number_was_read(code: str) -> None:
    numbered = [card for card in rule_base().descriptors.values() if card.wheel == code]
    assert {card.wheel_status for card in numbered} <= {term(code).code_status}


PHRASE = re.compile(r"^(.+?) is one of its phrases")


@pytest.mark.parametrize("code", [c for c in TERMS if PHRASE.match(term(c).reason)])
def test_a_reason_that_names_a_phrase_of_the_descriptor_is_true(code: str) -> None:
    found = PHRASE.match(term(code).reason)
    assert found and found[1] in rule_base().descriptors[str(term(code).descriptor)].phrasings


@every_term
def test_what_is_recalled_is_not_said_to_be_read(code: str) -> None:
    source = rule_base().sources[term(code).source]
    assert (source.kind == "published") == (term(code).code_status == "verified")


@every_term
def test_a_term_is_explained_with_the_terminology_as_a_source(code: str) -> None:
    answer = explain_card(rule_base(), code)
    assert (answer.kind, answer.id) == ("terms", code)
    assert "term1979" in [source.id for source in answer.sources]


def test_the_table_has_a_line_for_every_entry_of_the_file() -> None:
    answer = coverage_of(rule_base())
    assert [line.code for line in answer.terms] == [entry["id"] for entry in RAW]


# Source of the table: counted from the file with no loader of ours.
COUNTS = [
    ("terms", len(RAW)),
    ("first_tier", sum(entry["tier"] == 1 for entry in RAW)),
    ("second_tier", sum(entry["tier"] == 2 for entry in RAW)),
    ("direct", sum(entry["fit"] == "direct" for entry in RAW)),
    ("nearest", sum(entry["fit"] == "nearest" for entry in RAW)),
    ("meant_to_be_there", sum(entry["descriptor"] is None for entry in RAW)),
    ("not_reached", 0),
    ("codes_recalled", sum(entry["code_status"] == "recalled" for entry in RAW)),
    ("names_recalled", sum(entry.get("name_status") == "recalled" for entry in RAW)),
]


@pytest.mark.parametrize(("count", "number"), COUNTS)
def test_the_counts_under_the_table_are_those_of_the_file(count: str, number: int) -> None:
    assert coverage_of(rule_base()).counts[count] == number


def without_compound(rules: RuleBase, name: str) -> RuleBase:
    compounds = {key: card for key, card in rules.compounds.items() if key != name}
    places = {place: where for place, where in rules.places.items() if place[1] != name}
    return replace(rules, compounds=compounds, places=places)


def unmade(rules: RuleBase, name: str) -> RuleBase:
    orphan = rules.compounds[name].model_copy(update={"made_by": {}})
    return replace(rules, compounds={**rules.compounds, name: orphan})


@pytest.mark.parametrize("spoil", [without_compound, unmade])
def test_a_term_is_not_covered_once_nothing_makes_its_flavour(spoil: Any) -> None:
    rules = spoil(rule_base(), "almond_notes")
    line = next(line for line in coverage_of(rules).terms if line.name == "almond")
    assert (line.covered, line.descriptors, line.causes) == (False, (), ())
    assert coverage_of(rules).counts["not_reached"] == 1
    (fault,) = [f for f in rule_faults(rules) if f.file.endswith("coverage_1979.yaml")]
    assert fault.line == line_of('"0224"') and fault.found == "almond, which nothing reaches"


def test_a_term_with_a_second_descriptor_is_reached_by_either() -> None:
    rules = without_compound(rule_base(), "phenylethyl_notes")
    card = rules.terms["0163"]
    assert card.descriptors == ("rose", "soap")
    assert "soap" in ways_to(rules, card).descriptors


def line_of(text: str, folder: Path = RULES) -> int:
    lines = (folder / "coverage_1979.yaml").read_text("utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if text in line)


def copy_with_entry(folder: Path, code: str, old: str, new: str) -> Path:
    """A copy of the rules with one text replaced in the entry of one term."""
    copytree(RULES, folder / "rules")
    path = folder / "rules" / "coverage_1979.yaml"
    lines = path.read_text("utf-8").splitlines()
    index = line_of(f'"{code}"') - 1
    assert old in lines[index]
    lines[index] = lines[index].replace(old, new)
    path.write_text("\n".join(lines) + "\n", "utf-8")
    return folder / "rules"


KNOWN_WORD, KNOWN_SOURCE = "the id of a descriptor of the rule base", "the id of a source in rules/"
# Source of the table: first principles; slips of a hand that edits an entry.
SLIPS = [
    ("0224", "descriptor: almond", "descriptor: allmond", "descriptor", "allmond", KNOWN_WORD),
    ("0163", "also: [soap]", "also: [soup]", "also", "soup", KNOWN_WORD),
    ("0224", "source: wheel_copy", "source: hearsay", "source", "hearsay", KNOWN_SOURCE),
    (
        "0224",
        "source: wheel_copy",
        "source: from_memory",
        "code_status",
        "verified with source from_memory (memory)",
        "a published source, or recalled",
    ),
]


@pytest.mark.parametrize(("code", "old", "new", "key", "found", "wanted"), SLIPS)
def test_a_slip_in_an_entry_is_named_with_its_line(
    tmp_path: Path, code: str, old: str, new: str, key: str, found: str, wanted: str
) -> None:
    rules = load_rules(copy_with_entry(tmp_path, code, old, new))
    (fault,) = set(rule_faults(rules)) - set(rule_faults(rule_base()))
    place = (fault.file, fault.line, fault.key.rpartition(".")[2])
    assert place == ("rules/coverage_1979.yaml", line_of(f'"{code}"'), key)
    assert fault.found == found and fault.wanted.startswith(wanted)


# Source of the table: first principles; entries that contradict themselves.
UNREADABLE = [
    ("0224", "fit: direct", "fit: none", "found descriptor almond with fit none"),
    ("0224", "descriptor: almond", "descriptor: null", "found descriptor null with fit direct"),
    ("0224", "fit: direct", "fit: nearest", "found fit nearest without a reason"),
    ("0170", "fit: none", "also: [grassy], fit: none", "found also without a descriptor"),
    ("0224", 'id: "0224"', 'id: "224"', "id"),
    ("0224", 'id: "0224"', 'id: "0223"', "0223 again"),
    ("0224", "tier: 2", "tier: 3", "tier"),
    ("0224", "fit: direct", "fits: direct", "'fit', perhaps"),
]


@pytest.mark.parametrize(("code", "old", "new", "said"), UNREADABLE)
def test_an_entry_that_contradicts_itself_is_refused(
    tmp_path: Path, code: str, old: str, new: str, said: str
) -> None:
    folder = copy_with_entry(tmp_path, code, old, new)
    with pytest.raises(UnusableInput) as refusal:
        load_rules(folder)
    assert "rules/coverage_1979.yaml:" in str(refusal.value)
    assert said in str(refusal.value)
