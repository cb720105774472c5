"""The lint of the rule base: what no single card can see about itself."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from diagnose.batch.ingredients import SALTS
from diagnose.documents import Path
from diagnose.errors import Fault
from diagnose.flavour import word_keys
from diagnose.knowledge.base import RuleBase
from diagnose.knowledge.causes import Cause
from diagnose.knowledge.covering import term_faults
from diagnose.knowledge.graph import mute_causes
from diagnose.knowledge.retiring import retired_faults

_PUBLISHED = ("published-seen", "published-recalled")


def rule_faults(rules: RuleBase, cases: frozenset[str] | None = None) -> list[Fault]:
    """Every fault of the rule base as a whole, sorted by file and line.

    Args:
        rules: the rule base.
        cases: ids of the worked cases, when the causes' loud and quiet cases are to be checked.
    """
    found = [
        *_unknown_ends(rules),
        *_unheard_or_unmade(rules),
        *_unknown_findings(rules),
        *_counted_twice(rules),
        *_unsourced(rules),
        *_broken_mentions(rules),
        *_broken_checks(rules),
        *_deaf_cautions(rules),
        *term_faults(rules),
        *retired_faults(rules),
        *(_missing_cases(rules, cases) if cases is not None else ()),
    ]
    return sorted(set(found))


def _fault(rules: RuleBase, card: tuple[str, str], path: Path, sides: tuple[str, str]) -> Fault:
    return rules.places[card].fault(path, *sides)


def _unknown_ends(rules: RuleBase) -> Iterator[Fault]:
    for card_id, compound in rules.compounds.items():
        ends: tuple[tuple[Path, Mapping[str, Any], Mapping[str, Any], str], ...] = (
            (("made_by",), compound.made_by, rules.causes, "cause"),
            (("gives",), compound.gives, rules.descriptors, "descriptor"),
            (("brings", "yeast"), compound.brings.yeast, rules.yeasts, "yeast family"),
            (("brings", "style"), compound.brings.style, rules.styles, "style"),
        )
        for path, links, known, what in ends:
            for end in links:
                if end not in known:
                    sides = (end, f"the id of a {what} of the rule base")
                    yield _fault(rules, ("compounds", card_id), (*path, end), sides)


def _unheard_or_unmade(rules: RuleBase) -> Iterator[Fault]:
    given = {word for compound in rules.compounds.values() for word in compound.gives}
    for card_id in mute_causes(rules):
        sides = (
            "no compound with a flavour that names it in made_by",
            "at least one: nothing can show it",
        )
        yield _fault(rules, ("causes", card_id), ("id",), sides)
    for card_id in rules.descriptors:
        if card_id not in given and card_id not in rules.lexicon.words.vague:
            sides = ("no compound that gives it", "at least one compound with it in gives")
            yield _fault(rules, ("descriptors", card_id), (), sides)


def _unknown_findings(rules: RuleBase) -> Iterator[Fault]:
    for card_id, cause in rules.causes.items():
        card = ("causes", card_id)
        for index, indicator in enumerate(cause.indicators):
            path: Path = ("indicators", index, "measure")
            if indicator.measure not in rules.measures:
                yield _fault(
                    rules, card, path, (indicator.measure, "a measure of rules/measures.yaml")
                )
                continue
            classes = rules.measures[indicator.measure].classes
            if bool(classes) != bool(indicator.values):
                wanted = "'values' for a class measure, 'curve' for a number"
                yield _fault(rules, card, path, (indicator.measure, wanted))
            for value in set(indicator.values) - set(classes):
                yield _fault(rules, card, path, (value, f"one of {', '.join(classes)}"))
        yield from _unknown_circumstances(rules, card, cause)
        yield from _unknown_conditions(rules, card, cause)


def _unknown_circumstances(rules: RuleBase, card: tuple[str, str], cause: Cause) -> Iterator[Fault]:
    for key, table in cause.circumstances.items():
        path: Path = ("circumstances", key)
        if key not in rules.circumstances:
            yield _fault(rules, card, path, (key, "a circumstance of rules/circumstances.yaml"))
            continue
        wanted = set(rules.circumstances[key].values)
        if set(table.shares) != wanted:
            odd = ", ".join(sorted(set(table.shares) ^ wanted))
            yield _fault(
                rules, card, path, (f"a mismatch: {odd}", "every value of the circumstance")
            )


def _unknown_conditions(rules: RuleBase, card: tuple[str, str], cause: Cause) -> Iterator[Fault]:
    for index, condition in enumerate(cause.possible_when):
        measure = rules.measures.get(condition.measure)
        if measure is None or set(condition.any_of) - set(measure.classes):
            sides = (condition.measure, "a class measure and its classes")
            yield _fault(rules, card, ("possible_when", index), sides)


def _counted_twice(rules: RuleBase) -> Iterator[Fault]:
    for card_id, cause in rules.causes.items():
        spoken: dict[str, str] = {}
        for index, indicator in enumerate(cause.indicators):
            measure = rules.measures.get(indicator.measure)
            about = measure.about if measure else indicator.measure
            if about in spoken:
                found = f"{indicator.measure}, which is about {about} like {spoken[about]}"
                sides = (found, "one measure about it: evidence is counted once")
                yield _fault(rules, ("causes", card_id), ("indicators", index, "measure"), sides)
            spoken[about] = indicator.measure


def _unsourced(rules: RuleBase) -> Iterator[Fault]:
    for kind, card_id in rules.places:
        if kind == "sources":
            continue
        cards: Mapping[str, BaseModel] = getattr(rules, kind)
        for path, basis, source in _sourced(cards[card_id], ()):
            card = rules.sources.get(source)
            if card is None:
                sides = (source, "the id of a source in rules/sources/")
                yield _fault(rules, (kind, card_id), (*path, "source"), sides)
            elif basis in _PUBLISHED and card.kind != "published":
                sides = (f"basis {basis} with source {source} ({card.kind})", "a published source")
                yield _fault(rules, (kind, card_id), (*path, "basis"), sides)


def _sourced(value: Any, path: Path) -> Iterator[tuple[Path, str, str]]:
    """Every number or judged table inside a card, with its basis and source."""
    if isinstance(value, BaseModel):
        basis, source = getattr(value, "basis", None), getattr(value, "source", None)
        if isinstance(basis, str) and isinstance(source, str):
            yield path, basis, source
        for key in type(value).model_fields:
            yield from _sourced(getattr(value, key), (*path, key))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _sourced(item, (*path, str(key)))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _sourced(item, (*path, index))


def _broken_mentions(rules: RuleBase) -> Iterator[Fault]:
    for card_id, cause in rules.causes.items():
        mentions: list[Mention] = [
            ("confused_with", cause.confused_with, rules.causes),
            ("cautions", cause.cautions, rules.cautions),
            ("sources", cause.sources, rules.sources),
            ("now", cause.waits_for, rules.cautions),
        ]
        yield from _strangers(rules, ("causes", card_id), mentions)
    for card_id, style in rules.styles.items():
        yield from _strangers(rules, ("styles", card_id), [("yeast", (style.yeast,), rules.yeasts)])
    for card_id, compound in rules.compounds.items():
        mentions = [("predicted_by", (compound.predicted_by,), rules.measures)]
        yield from _strangers(rules, ("compounds", card_id), mentions)
    for card_id, measure in rules.measures.items():
        mentions = [("rests_on", measure.rests_on, rules.sources)]
        yield from _strangers(rules, ("measures", card_id), mentions)
    findings = {**rules.measures, **rules.circumstances, **rules.checks}
    for card_id, asked in rules.circumstances.items():
        mentions = [("same_as", asked.same_as, findings)]
        yield from _strangers(rules, ("circumstances", card_id), mentions)


def _broken_checks(rules: RuleBase) -> Iterator[Fault]:
    findings = {**rules.measures, **rules.circumstances, **rules.checks}
    for card_id, check in rules.checks.items():
        mentions: list[Mention] = [
            ("cautions", check.cautions, rules.cautions),
            ("sources", check.sources, rules.sources),
            ("same_as", check.same_as, findings),
            ("speaks_for", tuple(speaks.cause for speaks in check.speaks_for), rules.causes),
            ("speaks_for", tuple(speaks.compound for speaks in check.speaks_for), rules.compounds),
        ]
        yield from _strangers(rules, ("checks", card_id), mentions)
        results = {result.id for result in check.results}
        for table in (check.otherwise, *(s.shares for s in check.speaks_for)):
            if set(table) != results:
                sides = ", ".join(sorted(set(table) ^ results)), "shares for each result"
                yield _fault(rules, ("checks", card_id), ("results",), sides)


def _deaf_cautions(rules: RuleBase) -> Iterator[Fault]:
    """Triggers that nothing can set off: of all slips in the rules the one that can hurt."""
    for card_id, caution in rules.cautions.items():
        for trigger in (*caution.when, *caution.unless, *caution.only):
            measure = rules.measures.get(trigger.measure or "")
            mentions: list[Mention] = [
                ("when", (trigger.measure,), rules.measures),
                ("when", trigger.any_of, measure.classes if measure else ()),
                ("when", (trigger.descriptor,), rules.descriptors),
                ("when", (trigger.cause,), rules.causes),
                ("when", (trigger.salt,), SALTS),
            ]
            yield from _strangers(rules, ("cautions", card_id), mentions)
            for said in trigger.said:
                spelt = " ".join(word_keys(said, rules.lexicon))
                if said != spelt:
                    sides = said, f"'{spelt}', as the words of a note are spelt"
                    yield _fault(rules, ("cautions", card_id), ("when",), sides)


Mention = tuple[str, tuple[str | None, ...], Collection[str]]


def _strangers(rules: RuleBase, card: tuple[str, str], mentions: list[Mention]) -> Iterator[Fault]:
    for key, named, known in mentions:
        for name in named:
            if name is not None and name not in known:
                yield _fault(rules, card, (key,), (name, "an id of the rule base"))


def _missing_cases(rules: RuleBase, cases: frozenset[str]) -> Iterator[Fault]:
    for card_id, cause in rules.causes.items():
        for key in ("loud_case", "quiet_case"):
            name = str(getattr(cause, key))
            if name not in cases:
                sides = (name, "the name of a case in cases/")
                yield _fault(rules, ("causes", card_id), (key,), sides)
