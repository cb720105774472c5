"""A diagnosis on the terminal: cautions, the ranking with its evidence, then what to do."""

from textwrap import wrap

from rich.console import Console
from rich.text import Text

from diagnose.answers import (
    ChanceRange,
    Diagnosis,
    EvidenceLine,
    FaultGroup,
    PairLine,
    RankedCause,
    chance_words,
    lower_first,
    not_words,
    percent,
)
from diagnose.answers.diagnosis import Bounds
from diagnose.report.cautions import print_loud, print_notes
from diagnose.report.strips import (
    banded,
    bar,
    hanging,
    heading,
    near_text,
    odds_words,
    print_commands,
    quoted,
)
from diagnose.report.what_if_page import print_what_if

SHOWN_FOR, SHOWN_AGAINST = 4, 3
SHOWN_MISSING = 6
STOP_FIRST = (
    "First see to the danger named at the top; the rest waits until the beer is safe to handle."
)
LOUD_RIVAL_DECIBANS = 2.0
NAME_COLUMNS = 50


def print_diagnosis(console: Console, diagnosis: Diagnosis, top: int = 3) -> None:
    """Print a diagnosis; where something was supposed, what that changes and no more.

    Args:
        console: where to.
        diagnosis: what to print.
        top: how many suspects to show with their evidence.
    """
    console.print(Text(f"{diagnosis.batch}", style="bold"), Text(f"({diagnosis.beer})"))
    print_loud(console, diagnosis.cautions)
    if diagnosis.learned is not None:
        hanging(console, "", diagnosis.learned.says, indent=0)
    _print_words(console, diagnosis)
    if diagnosis.what_if is not None:
        print_what_if(console, diagnosis.what_if, diagnosis.verdict_text)
        return
    console.print()
    console.print(Text(diagnosis.verdict_text, style="bold"))
    print_commands(console, diagnosis.to_type)
    for group in diagnosis.faults:
        _print_group(console, group, top)
    _print_pairs(console, diagnosis.pairs)
    for one in diagnosis.bystanders:
        text = f"{one.name} ({percent(one.happened)} that it happened)"
        hanging(console, "happened perhaps, but does not make this:", text, indent=1)
    _print_next(console, diagnosis)
    _print_advice(console, diagnosis)
    _print_odd(console, diagnosis)
    print_notes(console, diagnosis.cautions)


def _print_words(console: Console, diagnosis: Diagnosis) -> None:
    heard = dict.fromkeys((u.name, u.intensity, u.state) for u in diagnosis.understood)
    reported = [_word(name, intensity) for name, intensity, state in heard if state == "reported"]
    absent = [name for name, _, state in heard if state == "absent"]
    parts = ["; ".join(reported)] if reported else []
    if absent:
        parts.append(", ".join(map(not_words, absent)))
    heading(console, "Heard")
    hanging(console, "-", "; ".join(parts) or "no flavour words", indent=2)
    for doubt in diagnosis.doubts:
        hanging(console, "?", doubt, indent=2)
    if diagnosis.partly is not None:
        hanging(console, "-", diagnosis.partly.says, indent=2)
    if diagnosis.not_understood:
        hanging(console, "-", f"not understood: {quoted(diagnosis.not_understood)}", indent=2)
    for one in diagnosis.near_words:
        hanging(console, "?", near_text(one), indent=2)


def _word(name: str, intensity: str | None) -> str:
    return f"{name} ({intensity})" if intensity else name


def _print_group(console: Console, group: FaultGroup, top: int) -> None:
    heading(console, "What may be behind " + ", ".join(group.names))
    for place, cause in enumerate(group.causes[:top], start=1):
        _print_cause(console, place, cause)
        if place == 1 and group.overturned is not None and not group.overturned.by:
            hanging(console, "-", STANDS, indent=5)
    rest = [cause for cause in group.causes[top:] if cause.responsible >= 0.01]
    for cause in rest:
        _print_cause_bar(console, "", cause)
    console.print()
    _print_bar(console, "", "this beer brings it by itself", group.expected_here)
    _print_bar(console, "", "something unknown here, or nothing at all", group.not_in_rule_base)


def _print_pairs(console: Console, pairs: tuple[PairLine, ...]) -> None:
    if pairs:
        heading(console, "Two causes at once")
    for pair in pairs:
        hanging(console, "-", pair_words(pair))


def pair_words(pair: PairLine) -> str:
    """A pair, how likely it explains everything, and how much better it does than one cause."""
    names = f"{pair.names[0]}, with {lower_first(pair.names[1])}"
    chance = f"{percent(pair.probability)} that they explain all of it between them"
    if pair.single < NO_ONE:
        return f"{names}: {chance}; no one cause does ({percent(pair.single)})"
    better = f"odds {odds_words(pair.decibans)} of the best one cause ({percent(pair.single)})"
    return f"{names}: {chance}; {better}"


def _print_cause_bar(console: Console, mark: str, cause: RankedCause) -> None:
    held = cause.responsible_range
    drawn = banded(held.low, held.high, console) if held else None
    _print_bar(console, mark, cause.name, cause.responsible, drawn)


def _print_bar(
    console: Console, mark: str, name: str, share: float, drawn: str | None = None
) -> None:
    room = min(NAME_COLUMNS, console.width - BAR_AND_NUMBER)
    for number, part in enumerate(wrap(name, room)):
        start = mark if number == 0 else ""
        tail = f"{drawn or bar(share, console)} {percent(share):>10}" if number == 0 else ""
        console.print(Text(f"{start:>2} {part:<{room}} {tail}".rstrip()), no_wrap=True)


BAR_AND_NUMBER = 32
# Below this chance no single cause does it.
NO_ONE = 0.01
STANDS = "no one answer would put another first, and no two or three together were found to"


def _print_cause(console: Console, place: int, cause: RankedCause) -> None:
    console.print()
    _print_cause_bar(console, f"{place}", cause)
    behind = f"{chance_words(cause.responsible)} to be behind it"
    happened = f"{percent(cause.happened)} that it happened at all"
    hanging(console, " ", f"{behind}; {happened}", indent=3)
    if cause.responsible_range is not None:
        hanging(console, " ", range_words(cause.responsible_range), indent=3)
    if cause.responsible_with_all is not None:
        hanging(console, " ", with_all_words(cause.responsible_with_all), indent=3)
    speaking = [line for line in cause.evidence if is_worth_a_line(line)]
    for line in [line for line in speaking if line.decibans > 0][:SHOWN_FOR]:
        _print_evidence(console, "for    ", line)
    for line in [line for line in speaking if line.decibans < 0][:SHOWN_AGAINST]:
        _print_evidence(console, "against", line)
    if not speaking:
        hanging(console, "-", "nothing in the record speaks for or against it", indent=5)
    if cause.overturned_by:
        hanging(console, "would fall if:", cause.overturned_by[0], indent=5)


def range_words(held: ChanceRange) -> str:
    """Where a chance falls when the rule base's own guesses are redrawn."""
    return f"{percent(held.low)} to {percent(held.high)} in 8 of 10 redraws of our own guesses"


def with_all_words(held: Bounds) -> str:
    """The chance once all words count, or between which figures it lies."""
    low, high = percent(held.low), percent(held.high)
    return f"with all words: {low}" if low == high else f"with all words: from {low} to {high}"


def is_worth_a_line(line: EvidenceLine) -> bool:
    """The words are shown once, at the top; what speaks through a rival only when it is loud."""
    return line.kind != "word" and (line.own or abs(line.decibans) >= LOUD_RIVAL_DECIBANS)


def _print_evidence(console: Console, side: str, line: EvidenceLine) -> None:
    style = "green" if line.decibans > 0 else "red"
    hanging(console, f"{side} {odds_words(line.decibans):>5} ", line.text, indent=5, style=style)


def _print_next(console: Console, diagnosis: Diagnosis) -> None:
    if not diagnosis.next_:
        return
    heading(console, "Find out next (best for its effort first)")
    kinds = {"question": "answer", "entry": "look up", "check": "check"}
    for step in diagnosis.next_[:3]:
        hanging(
            console,
            f"{kinds[step.kind]}, {step.minutes:.0f} min:",
            f"{step.text} (worth {step.gain_bits:.2f} bits)",
        )
    if diagnosis.missing:
        shown = "; ".join(diagnosis.missing[:SHOWN_MISSING])
        more = len(diagnosis.missing) - SHOWN_MISSING
        tail = f"; and {more} more" if more > 0 else ""
        hanging(console, "not in the record:", shown + tail)


def _print_advice(console: Console, diagnosis: Diagnosis) -> None:
    first = advised(diagnosis)
    if not first:
        return
    heading(console, "With this beer, now")
    if is_stopped(diagnosis):
        hanging(console, "-", STOP_FIRST, style="bold")
    for sentence in [sentence for cause in first for sentence in cause.now]:
        hanging(console, "-", sentence)
    heading(console, "Next time")
    for sentence in [sentence for cause in first for sentence in cause.next_time]:
        hanging(console, "-", sentence)


def is_stopped(diagnosis: Diagnosis) -> bool:
    """Whether a caution says stop: then all other advice waits."""
    return any(line.level == "stop" for line in diagnosis.cautions)


def advised(diagnosis: Diagnosis) -> tuple[RankedCause, ...]:
    """The suspects whose advice is given; none where the verdict leaves all open."""
    if diagnosis.verdict in ("expected", "open"):
        return ()
    # One cause may come first for several groups of words; its advice is given once.
    return tuple({group.causes[0].id: group.causes[0] for group in diagnosis.faults}.values())


def _print_odd(console: Console, diagnosis: Diagnosis) -> None:
    if not diagnosis.odd_entries:
        return
    heading(console, "Looks odd in the record (used all the same)")
    for odd in diagnosis.odd_entries:
        hanging(console, "-", f"{odd.place}: {odd.text}")
