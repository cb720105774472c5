"""The pages of the smaller commands."""

from rich.console import Console
from rich.text import Text

from diagnose.answers import (
    CardAnswer,
    Diagnosis,
    ExamAnswer,
    ProbeAnswer,
    ProfilesAnswer,
    RuleCheck,
    ScoreAnswer,
    WordsAnswer,
    percent,
)
from diagnose.report.cautions import print_cautions, print_loud, print_notes
from diagnose.report.strips import hanging, heading, near_text, print_commands, quoted


def print_words(console: Console, answer: WordsAnswer) -> None:
    """How words were understood."""
    _print_read(console, answer)
    if answer.doubts:
        heading(console, "Which of these is it?")
        for doubt in answer.doubts:
            names = " or ".join(doubt.candidates)
            hanging(console, "?", f"'{doubt.said}': {names}. {doubt.ask}")
    elif answer.tell_apart:
        heading(console, "Easily taken for one another")
        for trick in answer.tell_apart:
            hanging(console, "-", trick)


def _print_read(console: Console, answer: WordsAnswer) -> None:
    for line in answer.understood:
        state = "not there" if line.state == "absent" else (line.intensity or "there")
        hanging(console, "-", f"'{line.said}': {line.name} ({state})", indent=0)
        if line.also_possible:
            hanging(console, "or", ", ".join(line.also_possible), indent=4)
    told = [
        f"{k.replace('_', ' ')}: {v.replace('_', ' ')}" for k, v in answer.circumstances.items()
    ]
    for remark in (*told, *(f"noted: {note}" for note in answer.noted)):
        hanging(console, "-", remark, indent=0)
    if answer.not_understood:
        hanging(console, "-", f"not understood: {quoted(answer.not_understood)}", indent=0)
    for one in answer.near_words:
        hanging(console, "?", near_text(one), indent=0)
    if answer.praise:
        hanging(console, "-", f"praise, no fault: {quoted(answer.praise)}", indent=0)
    elif not (answer.understood or answer.not_understood):
        hanging(console, "-", "no flavour words in it", indent=0)


def print_card(console: Console, answer: CardAnswer) -> None:
    """One card in words."""
    console.print(Text(answer.name, style="bold"), Text(f"({answer.kind}: {answer.id})"))
    print_cautions(console, answer.cautions)
    if answer.says:
        hanging(console, "", answer.says, indent=0)
    for passage in answer.passages:
        heading(console, passage.heading)
        for line in passage.lines:
            if line:
                hanging(console, "-", line)
    if answer.paths:
        heading(console, "How it reaches the glass")
        by_compound: dict[str, list[str]] = {}
        for _, compound, descriptor in answer.paths:
            by_compound.setdefault(compound, []).append(descriptor)
        for compound, descriptors in by_compound.items():
            words = ", ".join(dict.fromkeys(d.replace("_", " ") for d in descriptors))
            hanging(console, "-", f"{compound.replace('_', ' ')} -> {words}")
    if answer.sources:
        heading(console, "Sources")
        for source in answer.sources:
            hanging(console, "-", f"{source.citation} [{source.id}]")


def print_probe(console: Console, answer: ProbeAnswer) -> None:
    """What a logger's export contains."""
    console.print(Text(answer.file, style="bold"))
    minutes = answer.every_minutes
    often = f"{minutes:.0f} min" if minutes >= 1 or not minutes else f"{60 * minutes:.0f} s"
    every = f"one row in {often}"
    gap = f"longest gap {answer.longest_gap_hours:.1f} h"
    hanging(
        console, "", f"{answer.first} to {answer.last} UTC, {answer.days:.1f} days, {every}, {gap}"
    )
    if answer.profile is not None:
        hanging(console, "saved profile:", answer.profile)
    heading(console, "Understood")
    for fact in answer.facts:
        hanging(console, f"{fact.what}:", f"{fact.taken_as}, because {fact.why}")
    heading(console, "In it")
    for series in answer.series:
        known = [series.lowest, series.mean, series.highest]
        digits = 3 if series.unit == "SG" else 1
        numbers = " / ".join("-" if value is None else f"{value:.{digits}f}" for value in known)
        text = (
            f"lowest / mean / highest {numbers} {series.unit}; {series.usable} of "
            f"{series.readings} readings usable; column '{series.header}', because {series.why}"
        )
        hanging(console, f"{series.role}:", text)
        if series.flags:
            flags = ", ".join(f"{count} {kind}" for kind, count in series.flags.items())
            hanging(console, "flagged, not deleted:", flags, indent=4)
    if answer.notes:
        heading(console, "Notes")
        for note in answer.notes:
            hanging(console, "-", note)
    hanging(console, "sha256", answer.sha256, indent=0)


def print_profiles(console: Console, answer: ProfilesAnswer) -> None:
    """The saved answers about loggers' files."""
    if answer.forgotten is not None:
        hanging(console, "forgotten:", answer.forgotten, indent=0)
    for one in answer.profiles:
        console.print(Text(one.name, style="bold"))
        hanging(console, "says:", one.says)
        columns = ", ".join(name or "(no name)" for name in one.columns)
        hanging(console, "for files with columns:", f"{columns}, parted by {one.delimiter}")
    if not answer.profiles:
        how = "faultwort probe FILE --unit F --save-profile NAME keeps an answer"
        hanging(console, "no saved profile:", how, indent=0)
    hanging(console, "file", answer.file or "none: FAULTWORT_PROFILES is empty", indent=0)


def print_rule_check(console: Console, answer: RuleCheck) -> None:
    """The check of a rule base."""
    for fault in answer.faults:
        place = f"{fault.file}:{fault.line}" if fault.line else fault.file
        key = f"{fault.key}: " if fault.key else ""
        console.print(
            Text(f"{place}: {key}found {fault.found}; wanted {fault.wanted}"),
            soft_wrap=True,
        )
    counted = ", ".join(f"{count} {kind}" for kind, count in answer.cards.items())
    verdict = f"{len(answer.faults)} faults" if answer.faults else "no faults"
    console.print(f"{counted}: {verdict}", soft_wrap=True)


def print_score(console: Console, answer: ScoreAnswer) -> None:
    """All cases replayed."""
    for case in answer.cases:
        mark = "holds" if case.holds else "FAILS"
        text = f"{case.case}: {case.first} ({percent(case.probability)}, {case.verdict})"
        hanging(console, mark, text, indent=0)
        if not case.holds:
            hanging(console, "why:", case.why, indent=6)
    if answer.exam is not None:
        _print_exam(console, answer.exam)
    for one in sorted(answer.perturbed, key=lambda one: one.kept):
        rival = f", else mostly {one.rival}" if one.rival else ""
        text = f"{one.case}: {one.first} first in {one.kept:.0%} of {answer.draws} draws{rival}"
        hanging(console, "~", text, indent=0)
    if not answer.cases:
        return
    console.print(
        f"{len(answer.cases)} cases: right cause first in {answer.top_1:.0%}, in the first three "
        f"in {answer.top_3:.0%}, mean log loss {answer.mean_log_loss:.2f}",
        soft_wrap=True,
    )


def _print_exam(console: Console, exam: ExamAnswer) -> None:
    for line in exam.lines:
        mark = "right" if line.right_first else "in 3 " if line.right_in_three else "MISS "
        text = f"{line.case} ({line.verdict}): {', '.join(line.first) or 'nothing named'}"
        hanging(console, mark, text, indent=0)
        if line.why:
            hanging(console, "why:", line.why, indent=6)
    heading(console, "Claims against answers")
    for row in exam.calibration:
        hanging(
            console,
            f"{row.low:.0%} to {row.high:.0%}:",
            f"{row.claims} claims, {row.mean_claim:.0%} on average, {row.right:.0%} right",
        )
    console.print()
    console.print(
        f"exam of {exam.scored} scored accounts: right first in {exam.top_1:.0%}, in the first "
        f"three in {exam.top_3:.0%}; mean log loss {exam.mean_log_loss:.2f}, Brier "
        f"{exam.brier:.2f}; lookup alone {exam.lookup_top_1:.0%} and {exam.lookup_top_3:.0%}",
        soft_wrap=True,
    )


def print_next_steps(console: Console, diagnosis: Diagnosis, answering: str = "") -> None:
    """The next best questions; cautions come first.

    Args:
        console: where to.
        diagnosis: whose they are.
        answering: the command that puts them one by one; empty where there is no file to answer in.
    """
    print_loud(console, diagnosis.cautions)
    console.print()
    console.print(Text(diagnosis.verdict_text, style="bold"))
    if diagnosis.to_type:
        print_commands(console, diagnosis.to_type)
        return
    if not diagnosis.next_:
        console.print("Nothing worth asking is left; plan a split batch, or taste again later.")
        return
    kinds = {"question": "Answer", "entry": "Look up", "check": "Check"}
    for place, step in enumerate(diagnosis.next_, start=1):
        heading(console, f"{place}. {kinds[step.kind]} ({step.minutes:.0f} min): {step.text}")
        hanging(console, "", f"worth {step.gain_bits:.2f} bits [{step.id}]")
        for answer in step.answers:
            hanging(console, "-", answer, indent=4)
    if answering:
        print_commands(console, [(answering, "asks these, and writes your answers in the record")])
    print_notes(console, diagnosis.cautions)
