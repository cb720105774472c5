"""The pages of the split commands."""

from rich.console import Console
from rich.text import Text

from diagnose.answers.caution import CautionLine
from diagnose.answers.chances import percent
from diagnose.answers.splits import (
    BallotEntered,
    BallotsMade,
    CandidateLine,
    SplitChecked,
    SplitChoice,
    SplitPlanned,
    SplitRead,
)
from diagnose.report.cautions import print_cautions
from diagnose.report.panel_pages import print_panel_read
from diagnose.report.strips import hanging, heading, print_commands, print_next
from diagnose.trial.costs import COST_WORDS
from diagnose.units import Field, show
from diagnose.units.rounding import figure

_EXPLAINED = 2
_KINDS = {
    "confound": "CONFOUND",
    "parity": "PARITY",
    "factor": "factor",
    "one_arm_only": "one arm only",
    "harmless": "harmless",
}


def print_split_choice(console: Console, answer: SplitChoice) -> None:
    """Which suspect to put to a split, the best two explained."""
    answers = answer.tasters * answer.rounds
    console.print(Text(f"{answer.batch}: {answers} answers at hand", style="bold"))
    _print_cautions(console, answer.cautions)
    hanging(console, "", answer.says, indent=0)
    if answer.candidates:
        hanging(console, "-", COST_WORDS, indent=0)
    for place, one in enumerate(answer.candidates, start=1):
        _print_candidate(console, place, one)
    if answer.bundle is not None:
        heading(console, "Or halve the field")
        hanging(console, "", answer.bundle.says)
        for name in answer.bundle.names:
            hanging(console, "-", name)
    if answer.without_split:
        heading(console, "Suspects that no split isolates")
        for name in answer.without_split:
            hanging(console, "-", name)
    print_next(console, answer.type_next)


def _print_candidate(console: Console, place: int, one: CandidateLine) -> None:
    heading(console, f"{place}. {one.name} ({percent(one.responsible)})")
    spent = "" if one.money is None else f" (about {one.money:.2f} of your money)"
    beer = show(one.litres, Field.VOLUME) + spent
    days = f"{one.extra_brew_days:g} extra brew day{'' if one.extra_brew_days == 1 else 's'}"
    cost = f"{days}, {beer}, {one.weeks:.2g} weeks, {one.hours:.1f} h of work"
    gain = f"{one.gain_bits:.2f} bits for a cost of {one.cost_units:.1f}"
    worth = "takes" if one.not_served else f"worth {gain}:"
    hanging(console, "-", f"{worth} {cost} [{one.cause}]")
    if one.not_served:
        hanging(console, "-", one.says if place <= _EXPLAINED else "not to be tasted")
    if place <= _EXPLAINED:
        hanging(console, "-", f"{one.factor}: {one.suspect_setting}, against {one.other_setting}")
        hanging(console, "-", f"takes {one.kit}")
    if not one.not_served:
        _print_panel_of(console, place, one)


def _print_panel_of(console: Console, place: int, one: CandidateLine) -> None:
    """What the panel at hand would make of a split."""
    if not one.readable:
        finds = f"this panel cannot read it: it finds a plain fault in {percent(one.power)}"
        hanging(console, "-", finds)
    if place > _EXPLAINED:
        return
    for words in one.would_help:
        hanging(console, "+", words, indent=4)
    finds = f"it finds a plain fault in {percent(one.power)}"
    hanging(console, "-", f"{one.test}: {one.why_test}; {finds}")
    hanging(console, "-", one.says)
    for worth in one.worth:
        hanging(console, f"{worth.bits:.2f} bits:", worth.what, indent=4)


def print_split_plan(console: Console, answer: SplitPlanned) -> None:
    """A plan that was written down."""
    console.print(Text(f"{answer.batch}: {' and '.join(answer.names)}", style="bold"))
    _print_cautions(console, answer.cautions)
    for label, words in answer.arms.items():
        vessels = ", ".join(str(n) for n, arm in answer.vessels.items() if arm == label)
        hanging(console, f"{label}:", f"{words} (vessel {vessels})", indent=0)
    each = show(answer.litres_per_vessel, Field.VOLUME)
    hanging(console, "-", f"{each} in each vessel; drawn with seed {answer.seed}", indent=0)
    for date in answer.dates:
        hanging(console, f"{date.day:%d %b %Y}:", date.what.split(":")[0], indent=0)
    hanging(console, "-", _tasting_words(answer), indent=0)
    for words in answer.remarks:
        hanging(console, "-", words, indent=0)
    _print_files(console, answer.files)
    print_next(console, answer.next_)


def _tasting_words(answer: SplitPlanned) -> str:
    if answer.tasting_on is None:
        return "no tasting: the beer is not to be served; compare the arms by what you can measure"
    return f"the tasting: {answer.test}, {answer.tasters} answers"


def print_split_check(console: Console, answer: SplitChecked) -> None:
    """Two arms compared."""
    _print_cautions(console, answer.cautions)
    console.print(Text(answer.says, style="bold"))
    hanging(console, "", f"{answer.first} against {answer.second}; {answer.about}", indent=0)
    for line in answer.differences:
        mark = f"{_KINDS[line.kind]}:"
        spoils = f" [{percent(line.spoils)}]" if line.spoils > 0.0 else ""
        hanging(console, mark, f"{line.name}{spoils}", indent=0)
        hanging(console, "", f"{line.first} / {line.second}: {line.says}", indent=4)
    if answer.also:
        heading(console, "Also different, with no bearing known")
        for words in answer.also:
            hanging(console, "-", words)
    for words in answer.remarks:
        hanging(console, "-", words, indent=0)
    if answer.written is not None:
        hanging(console, "written:", answer.written, indent=0)
    print_next(console, answer.type_next)


def print_ballots_made(console: Console, answer: BallotsMade) -> None:
    """Ballots, sheets and a sealed key."""
    of = f"{answer.answers} answers, {answer.glasses} glasses to pour"
    console.print(Text(f"{answer.batch}: {answer.test}, {of}", style="bold"))
    _print_cautions(console, answer.cautions)
    if answer.arms:
        hanging(console, "ARMS:", answer.arms, indent=0, style="bold")
    console.print(Text("hash of the key:"))
    console.print(Text(answer.commitment), soft_wrap=True)
    hanging(console, "-", answer.alcohol, indent=0)
    for words in answer.few:
        hanging(console, "FEW:", words, indent=0, style="bold")
    for words in answer.remarks:
        hanging(console, "-", words, indent=0)
    _print_files(console, answer.files)
    print_next(console, answer.type_next)


def print_ballot_entered(console: Console, answer: BallotEntered) -> None:
    """A ballot that is in the box."""
    taken = f"Ballot of {answer.taster}, round {answer.round}, is in ({answer.in_} so far)."
    hanging(console, "", f"{taken} {answer.says[:1].upper()}{answer.says[1:]}.", indent=0)
    print_next(console, answer.type_next)


def print_split_read(console: Console, answer: SplitRead) -> None:
    """A panel read back into the ranking: in plain words first, then in figures."""
    print_cautions(console, answer.cautions)
    for words, lines in (
        ("Now known", answer.known),
        ("Still not known", answer.not_known),
        ("Next", answer.next_),
        ("Said after the choice", answer.comments),
    ):
        _print_list(console, words, lines)
    heading(console, "The ranking, before and after")
    for row in answer.ranking:
        moved = f"{percent(row.before)} -> {percent(row.after)}"
        hanging(console, f"{moved}:", row.name)
    for ratio in answer.ratios:
        ends = f"this pair could give {figure(ratio.lowest)} to {figure(ratio.highest)}"
        hanging(console, "-", f"ratio on {ratio.name}: {figure(ratio.ratio)} ({ends})")
    heading(console, "In figures")
    remarks = (*answer.panel.remarks, *answer.remarks, f"closed: {answer.closed}")
    print_panel_read(console, answer.panel.model_copy(update={"remarks": remarks}))
    kept = (answer.keep, "keeps it with the batch in your history")
    after = (answer.type_next, "goes on") if answer.type_next != answer.keep else ("", "")
    print_commands(console, [one for one in (kept, after) if one[0]])


def _print_list(console: Console, words: str, lines: tuple[str, ...]) -> None:
    if lines:
        heading(console, words)
        for line in lines:
            hanging(console, "-", line)


def _print_cautions(console: Console, cautions: tuple[CautionLine, ...]) -> None:
    """Every caution, before anything is advised; a blank line behind them."""
    print_cautions(console, cautions)
    if cautions:
        console.print()


def _print_files(console: Console, files: tuple[str, ...]) -> None:
    for file in files:
        hanging(console, "written:", file, indent=0)
