"""The pages of `rules list`: cards, what numbers rest on, terms covered."""

from rich.console import Console

from diagnose.answers import BasisAnswer, CardList, CoverageAnswer, TermLine
from diagnose.report.strips import hanging, heading

KIND_COLUMNS, NUMBER_COLUMNS = 14, 9
NAME_COLUMNS = 18
_HEADINGS = {
    "published-seen": "seen",
    "published-recalled": "recalled",
    "judgement": "judged",
    "none stated": "none",
}
_LEGEND = (
    ("seen, recalled:", "published, and read in the source named or quoted from memory"),
    ("derived:", "worked out from published numbers"),
    ("practice:", "usual in the trade"),
    ("judged:", "a considered guess with a range"),
    ("none:", "no basis stated; there should be none"),
)


def print_rule_list(console: Console, answer: CardList | CoverageAnswer | BasisAnswer) -> None:
    """Whichever list of the rule base was asked for."""
    if isinstance(answer, CoverageAnswer):
        print_coverage(console, answer)
    elif isinstance(answer, BasisAnswer):
        print_basis(console, answer)
    else:
        print_card_list(console, answer)


def print_card_list(console: Console, answer: CardList) -> None:
    """How many cards there are, or the cards of one kind."""
    for line in answer.cards:
        hanging(console, f"{line.id:<26}", line.name, indent=0)
    for kind, count in answer.counts.items():
        console.print(f"{count:>5} {kind}")
    console.print(f"version {answer.version}")


def print_coverage(console: Console, answer: CoverageAnswer) -> None:
    """Every term of the published terminology and what reaches it."""
    for line in answer.terms:
        mark = "~" if line.code_status == "recalled" else " "
        hanging(console, f"{line.code}{mark} {line.name:<{NAME_COLUMNS}}", _reached(line), indent=0)
    counts = answer.counts
    heading(console, "Covered")
    tiers = f"{counts['first_tier']} of the first tier and {counts['second_tier']} of the second"
    hanging(console, "-", f"{counts['terms']} terms, {tiers}")
    for key in ("direct", "nearest", "meant_to_be_there", "not_reached"):
        hanging(console, "-", f"{counts[key]} {key.replace('_', ' ')}")
    recalled = f"{counts['codes_recalled']} numbers and {counts['names_recalled']} words"
    hanging(console, "~", f"recalled, not read in a source: {recalled}")
    heading(console, "Sources")
    for source in answer.sources:
        hanging(console, "-", f"{source.citation} [{source.id}]")
    if answer.note:
        hanging(console, "-", answer.note)
    console.print(f"version {answer.version}")


def _reached(line: TermLine) -> str:
    if not line.covered:
        return f"NOT REACHED {line.reason}".rstrip()
    if line.fit == "none":
        return f"meant to be there: {line.reason}"
    number = len(line.causes)
    words = f"{', '.join(line.descriptors)} ({number} cause{'s' if number > 1 else ''})"
    return f"nearest: {words}: {line.reason}" if line.fit == "nearest" else words


def print_basis(console: Console, answer: BasisAnswer) -> None:
    """How many numbers of each kind of card rest on what."""
    _print_row(console, "", [_HEADINGS.get(basis, basis) for basis in answer.totals], "all")
    for row in answer.kinds:
        _print_row(console, row.kind, [str(n) for n in row.numbers.values()], str(row.total))
    _print_row(console, "all", [str(n) for n in answer.totals.values()], str(answer.total))
    shares = [n / max(answer.total, 1) for n in answer.totals.values()]
    _print_row(console, "", [f"{share:.1%}" for share in shares], "")
    console.print()
    for mark, words in _LEGEND:
        hanging(console, mark, words, indent=0)
    console.print(f"version {answer.version}")


def _print_row(console: Console, kind: str, cells: list[str], total: str) -> None:
    numbers = "".join(f"{cell:>{NUMBER_COLUMNS}}" for cell in [*cells, total])
    console.print(f"{kind:<{KIND_COLUMNS}}{numbers}".rstrip(), soft_wrap=True)
