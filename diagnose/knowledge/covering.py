"""How the terms of the published flavour terminology are reached: descriptor, compound, cause."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.errors import Fault
from diagnose.knowledge.base import RuleBase
from diagnose.knowledge.lists import Term


@dataclass(frozen=True)
class Ways:
    """The ways in which one term can come about: its descriptors and what may lie behind them.

    `descriptors` are those that some compound gives which some cause makes; `compounds` and
    `causes` those that do so.
    """

    descriptors: tuple[str, ...]
    compounds: tuple[str, ...]
    causes: tuple[str, ...]


def ways_to(rules: RuleBase, term: Term) -> Ways:
    """The ways in which a term can come about; none of them where nothing reaches it."""
    made = {
        card_id: [cause for cause in compound.made_by if cause in rules.causes]
        for card_id, compound in rules.compounds.items()
    }
    reached, compounds, causes = [], set[str](), set[str]()
    for word in term.descriptors:
        givers = [key for key, card in rules.compounds.items() if word in card.gives and made[key]]
        if word in rules.descriptors and givers:
            reached.append(word)
            compounds.update(givers)
            causes.update(cause for key in givers for cause in made[key])
    return Ways(tuple(reached), tuple(sorted(compounds)), tuple(sorted(causes)))


def is_covered(rules: RuleBase, term: Term) -> bool:
    """Whether some cause can make the term come about, or beer is meant to have it anyway."""
    return term.fit == "none" or bool(ways_to(rules, term).causes)


def term_faults(rules: RuleBase) -> Iterator[Fault]:
    """Terms with a descriptor or a source that is not there, and terms that nothing reaches."""
    for card_id, term in rules.terms.items():
        place = rules.places["terms", card_id]
        strangers = [word for word in term.descriptors if word not in rules.descriptors]
        for word in strangers:
            key = "descriptor" if word == term.descriptor else "also"
            yield place.fault((key,), word, "the id of a descriptor of the rule base")
        if not strangers and not is_covered(rules, term):
            wanted = "a descriptor that a compound gives which a cause makes"
            yield place.fault(("descriptor",), f"{term.name}, which nothing reaches", wanted)
        source = rules.sources.get(term.source)
        if source is None:
            yield place.fault(("source",), term.source, "the id of a source in rules/sources/")
        elif term.code_status == "verified" and source.kind != "published":
            found = f"verified with source {source.id} ({source.kind})"
            yield place.fault(("code_status",), found, "a published source, or recalled")
