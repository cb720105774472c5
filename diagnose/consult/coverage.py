"""The published flavour terminology, term by term, with what reaches each of its terms."""

from collections.abc import Sequence

from diagnose.answers import CoverageAnswer, SourceLine, TermLine
from diagnose.knowledge import RuleBase, Term, is_covered, ways_to

TERMINOLOGY = "term1979"


def coverage_of(rules: RuleBase) -> CoverageAnswer:
    """Every term with the descriptors, compounds and causes that reach it, and counts."""
    lines = [_line(rules, term) for term in rules.terms.values()]
    cited = dict.fromkeys([TERMINOLOGY, *(line.source for line in lines)])
    cards = [rules.sources[key] for key in cited if key in rules.sources]
    paper = rules.sources.get(TERMINOLOGY)
    return CoverageAnswer(
        version=rules.version,
        terms=tuple(lines),
        counts=_counts(lines),
        sources=tuple(SourceLine(id=s.id, kind=s.kind, citation=s.citation) for s in cards),
        note=f"{TERMINOLOGY}: {paper.note}" if paper else "",
    )


def _line(rules: RuleBase, term: Term) -> TermLine:
    ways = ways_to(rules, term)
    return TermLine(
        code=term.id,
        name=term.name,
        tier=term.tier,
        code_status=term.code_status,
        name_status=term.name_status,
        source=term.source,
        fit=term.fit,
        covered=is_covered(rules, term),
        descriptors=ways.descriptors,
        compounds=ways.compounds,
        causes=ways.causes,
        reason=term.reason,
    )


def _counts(lines: Sequence[TermLine]) -> dict[str, int]:
    return {
        "terms": len(lines),
        "first_tier": sum(line.tier == 1 for line in lines),
        "second_tier": sum(line.tier == 2 for line in lines),
        "direct": sum(line.fit == "direct" and line.covered for line in lines),
        "nearest": sum(line.fit == "nearest" and line.covered for line in lines),
        "meant_to_be_there": sum(line.fit == "none" for line in lines),
        "not_reached": sum(not line.covered for line in lines),
        "codes_recalled": sum(line.code_status == "recalled" for line in lines),
        "names_recalled": sum(line.name_status == "recalled" for line in lines),
    }
