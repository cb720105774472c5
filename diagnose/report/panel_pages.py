"""The pages of the panel commands."""

from rich.console import Console
from rich.text import Text

from diagnose.answers import percent
from diagnose.answers.chances import chance_figure
from diagnose.answers.panels import PanelCriticals, PanelRead, PanelSizes, SizeLine
from diagnose.report.strips import hanging, heading, print_next
from diagnose.units.rounding import figure


def print_panel_sizes(console: Console, answer: PanelSizes) -> None:
    """How many answers to plan."""
    console.print(Text(_sentence(answer.says), style="bold"))
    aim = f"{percent(answer.power)} chance to find {answer.difference}"
    hanging(console, "", f"{answer.name}, {_risk(answer.alpha)}, {aim}", indent=0)
    heading(console, "Good numbers of answers")
    if not answer.good:
        hanging(console, "-", f"none up to {answer.most}")
    for line in answer.good:
        hanging(console, f"{line.answers:>3}:", _size_words(line, answer.counted))
    if answer.poor:
        heading(console, "No better than fewer answers")
        pairs = ", ".join(
            f"{size.answers} ({size.better} do as well or better)" for size in answer.poor
        )
        hanging(console, "-", pairs)
    if answer.else_:
        heading(console, "What else would help")
        for offer in answer.else_:
            hanging(console, "-", offer)
    for caution in answer.cautions:
        heading(console, "Before you pour")
        hanging(console, "!", caution)
    print_next(console, answer.type_next)


def _size_words(line: SizeLine, counted: str) -> str:
    mark = "  enough" if line.reaches else ""
    risk = percent(line.exact_alpha)
    return (
        f"{line.least_correct:>3} {counted} needed, finds it in {percent(line.power)}, "
        f"false alarm {risk}{mark}"
    )


def print_panel_criticals(console: Console, answer: PanelCriticals) -> None:
    """How many answers have to be right."""
    console.print(Text(f"{answer.name}, {_risk(answer.alpha)}", style="bold"))
    hanging(console, "", _sentence(answer.says), indent=0)
    if len(answer.lines) > 1 or any(line.note for line in answer.lines):
        heading(console, "Limits")
        for line in answer.lines:
            least = "none" if line.least_correct is None else str(line.least_correct)
            note = f" {line.note}" if line.note else ""
            hanging(console, "-", f"{least} of {line.answers}{note}")
    hanging(console, "-", f"true risk of a false alarm {percent(answer.exact_alpha)}", indent=0)
    for remark in answer.remarks:
        hanging(console, "-", remark, indent=0)
    print_next(console, answer.type_next)


def print_panel_read(console: Console, answer: PanelRead) -> None:
    """A tasting, and what it could have missed."""
    console.print(Text(f"{answer.name}: {answer.given}", style="bold"))
    hanging(console, "", _sentence(answer.says), indent=0)
    _print_figures(console, answer)
    if answer.evenings:
        heading(console, "Evening by evening")
        for number, line in enumerate(answer.evenings, start=1):
            so_far = "to come" if line.correct_so_far is None else f"{line.correct_so_far} so far"
            least = "cannot show it yet" if line.least_correct is None else line.least_correct
            hanging(console, f"{number}.", f"{so_far} of {line.answers_so_far}; needed: {least}")
    if answer.bayes:
        heading(console, "Bayes factor, by the spread of the prior on d' (half-normal)")
        for one in answer.bayes:
            hanging(console, f"{one.prior_spread:g}:", f"{figure(one.factor)}, {one.says}")
    if answer.tasters is not None:
        heading(console, "Taster by taster")
        hanging(console, "-", answer.tasters.says)
        alike = answer.tasters.p_tasters_alike
        spread = f"spread between tasters (gamma) {answer.tasters.gamma:.2f}"
        hanging(console, "-", f"{spread}; p for tasters all alike {chance_figure(alike)}")
    if answer.remarks:
        heading(console, "Mind")
        for remark in answer.remarks:
            hanging(console, "-", remark)
    print_next(console, answer.type_next)


def _print_figures(console: Console, answer: PanelRead) -> None:
    if answer.p is not None:
        p = "p under 0.001" if answer.p < 0.001 else f"p = {answer.p:.3g}"
        hanging(console, "-", f"{p} at {_risk(answer.alpha)}")
    for span in (answer.dprime, answer.able):
        if span is not None:
            hanging(console, "-", span.says)
    if answer.missed is not None and answer.able_that_matters is not None:
        able = percent(answer.able_that_matters)
        text = f"if {able} of tasters could tell, a panel like this misses it in"
        hanging(console, "-", f"{text} {percent(answer.missed)}")


def _risk(alpha: float) -> str:
    return f"alpha {alpha:g}"


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."
