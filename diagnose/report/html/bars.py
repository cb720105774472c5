"""Bars of chances, drawn, so that they are printed where backgrounds are not."""

from html import escape

from diagnose.answers import ChanceRange
from diagnose.answers.chances import percent
from diagnose.report.diagnosis_page import range_words


def share_bar(name: str, share: float, held: ChanceRange | None = None) -> str:
    """A name with its bar, its percentage, and its band where there is one.

    Args:
        name: what the chance is of.
        share: the chance.
        held: where it falls when the rule base's own guesses are redrawn.
    """
    return (
        f'<li>{escape(name)}<div class="row">'
        '<svg class="bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">'
        '<rect x="0.2" y="0.5" width="99.6" height="7" fill="#fff" stroke="#000" '
        'vector-effect="non-scaling-stroke"/>'
        f'<rect x="0.2" y="0.5" width="{99.6 * share:.1f}" height="7" fill="#000"/>'
        f"{_band(held)}</svg>"
        f'<span class="share">{percent(share)}</span></div>{_band_words(held)}</li>'
    )


def _band(held: ChanceRange | None) -> str:
    """The range as a lighter strip along the middle of the bar."""
    if held is None:
        return ""
    start, width = 0.2 + 99.6 * held.low, max(99.6 * (held.high - held.low), 0.4)
    return f'<rect x="{start:.1f}" y="3" width="{width:.1f}" height="2" fill="#888"/>'


def _band_words(held: ChanceRange | None) -> str:
    return f'<div class="small">{range_words(held)}</div>' if held is not None else ""
