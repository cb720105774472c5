"""What separates flawed from clean batches, as sentences, a table and bars."""

from html import escape

from diagnose.answers.chances import chance_figure, odds_text
from diagnose.answers.history_looking import Contrast, SharedCauses, SuspectLine
from diagnose.report.html.bars import share_bar
from diagnose.report.html.parts import capital
from diagnose.report.html.quantities import unbroken
from diagnose.report.html.tables import table
from diagnose.report.sheets.frame import items, section
from diagnose.units.scales import change_in_both

_SHOWN = 6
# Causes of a smaller chance are not drawn.
_LEAST = 0.01
_HEAD = ("Factor", "Flawed", "Clean", "Flawed less clean", "p, adjusted")


def contrast_part(contrast: Contrast) -> str:
    """One contrast in short; the terminal shows the rest."""
    rows = [_row(one) for one in contrast.suspects[:_SHOWN]]
    caption = f"Factors that differ most, of {contrast.tested} looked at"
    told = table(caption, _HEAD, rows) if rows else ""
    model = _model(contrast.model) if contrast.model is not None else ""
    title = f"{capital(contrast.flaw)}: what separates flawed from clean"
    return section(title, items(map(capital, contrast.says)) + told + model)


def _row(one: SuspectLine) -> tuple[str, ...]:
    claimed = "<br><strong>claimed</strong>" if one.claimed else ""
    return (
        escape(capital(one.name)) + claimed,
        _with(one.flawed_with, one.flawed),
        _with(one.clean_with, one.clean),
        escape(unbroken(_effect(one))),
        chance_figure(one.p_adjusted),
    )


def _with(having: int | None, all_of: int) -> str:
    return f"{all_of} batches" if having is None else f"{having} of {all_of}"


def _effect(one: SuspectLine) -> str:
    if one.unit == "share":
        return f"{100.0 * one.effect:+.0f} points"
    return change_in_both((one.effect, one.effect, one.effect), one.unit)


def _model(model: SharedCauses) -> str:
    """The chances as bars, with their odds in words."""
    lines = [(one.share, one.name) for one in model.causes if one.share >= _LEAST]
    lines += [
        (model.none, "No cause in common"),
        (model.unknown, "One that the rule base lacks or weighs too lightly"),
        (model.own, "What yeast and style bring by themselves"),
    ]
    ordered = sorted(lines, key=lambda one: (-one[0], one[1]))
    bars = "".join(share_bar(f"{name}: {odds_text(share)}", share) for share, name in ordered)
    batches = f"{model.flawed} flawed, {model.clean} clean"
    return f'<h3>A cause in common, by the model ({batches})</h3><ol class="ranking">{bars}</ol>'
