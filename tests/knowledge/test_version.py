"""The fingerprint of a rule base: it follows the numbers, not the order they stand in."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from shutil import copytree

import pytest

from diagnose.documents import Number
from diagnose.knowledge import RuleBase, load_rules
from tests.knowledge.shipped import RULES, rule_base


def nudged(number: Number) -> Number:
    return number.model_copy(update={"value": number.low, "low": number.low - 1e-6})


def another_base_rate(rules: RuleBase) -> RuleBase:
    card = rules.causes["light_struck"]
    changed = card.model_copy(update={"base_rate": nudged(card.base_rate)})
    return replace(rules, causes={**rules.causes, card.id: changed})


def another_strength(rules: RuleBase) -> RuleBase:
    card = rules.compounds["diacetyl"]
    word, number = next(iter(card.gives.items()))
    changed = card.model_copy(update={"gives": {**card.gives, word: nudged(number)}})
    return replace(rules, compounds={**rules.compounds, card.id: changed})


def another_curve(rules: RuleBase) -> RuleBase:
    card = rules.causes["overprimed"]
    bent = card.indicators[0].model_copy(update={"curve": ((0.0, 1.0), (1.0, 2.0))})
    changed = card.model_copy(update={"indicators": (bent, *card.indicators[1:])})
    return replace(rules, causes={**rules.causes, card.id: changed})


def another_constant(rules: RuleBase) -> RuleBase:
    card = rules.constants["staling_q10"]
    return replace(rules, constants={**rules.constants, card.id: nudged(card)})


def another_wrong_word(rules: RuleBase) -> RuleBase:
    card = rules.descriptors["butter"]
    changed = card.model_copy(update={"wrong_word": nudged(card.wrong_word)})
    lexicon = replace(rules.lexicon, cards={**rules.lexicon.cards, card.id: changed})
    return replace(rules, lexicon=lexicon)


def another_strength_of_words(rules: RuleBase) -> RuleBase:
    words = rules.lexicon.words
    faint = words.intensity.faint
    faint = faint.model_copy(update={"said_if_not": nudged(faint.said_if_not)})
    changed = words.model_copy(
        update={"intensity": words.intensity.model_copy(update={"faint": faint})}
    )
    return replace(rules, lexicon=replace(rules.lexicon, words=changed))


@pytest.mark.parametrize(
    "change",
    [
        another_base_rate,
        another_strength,
        another_curve,
        another_constant,
        another_wrong_word,
        another_strength_of_words,
    ],
)
def test_the_version_changes_when_a_number_changes(change: Callable[[RuleBase], RuleBase]) -> None:
    assert change(rule_base()).version != rule_base().version


def test_the_version_changes_when_a_card_is_taken_out() -> None:
    rules = rule_base()
    places = {place: where for place, where in rules.places.items() if place[1] != "light_struck"}
    assert replace(rules, places=places).version != rules.version


def test_the_version_stays_when_cards_are_met_in_another_order() -> None:
    rules = rule_base()
    turned = replace(
        rules,
        causes=dict(reversed(rules.causes.items())),
        places=dict(reversed(rules.places.items())),
    )
    assert turned.version == rules.version


def test_the_version_stays_when_a_list_file_is_turned_round_and_remarked_on(tmp_path: Path) -> None:
    copytree(RULES, tmp_path / "rules")
    styles = tmp_path / "rules" / "styles.yaml"
    cards = styles.read_text(encoding="utf-8").split("- id: ")[1:]
    turned = "".join(f"- id: {card}" for card in reversed(cards))
    styles.write_text(f"# turned round\n{turned}", encoding="utf-8")
    assert load_rules(tmp_path / "rules").version == rule_base().version
