"""The ballots: one sheet for each taster and round, folded once; no key and no factor on it."""

from html import escape

from diagnose.report.sheets.frame import sheet, text
from diagnose.sensory import DIFFERENCE_FROM_CONTROL
from diagnose.trial.panel import Panel, Serving

_STYLE = """
.top h2 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .4rem; border: 0; }
.sheet { margin: 0 0 2rem; border-bottom: 4px double #000; }
.glasses { display: flex; flex-wrap: wrap; gap: .6rem; margin: .6rem 0; padding: 0; }
.glass { border: 2px solid #000; padding: .4rem .8rem; min-width: 6.2rem; text-align: center; }
.box { display: inline-block; width: 1.1rem; height: 1.1rem; border: 2px solid #000;
  vertical-align: -.15rem; margin: 0 .3rem 0 .8rem; }
.fold { border-top: 2px dashed #000; margin: .8rem 0 .4rem; padding-top: .2rem; }
.line { border-bottom: 1px solid #000; height: 1.9rem; }
@media print {
  h1 { display: none; }
  .sheet { border: 0; margin: 0; break-inside: avoid; }
  .top { height: 124mm; overflow: hidden; }
}
"""
_ASKS = {
    "triangle": "Two of these three glasses hold the same beer. Which one is the odd one out?",
    "tetrad": "Four glasses, two beers, two glasses of each. Sort them into two groups of two, and "
    "mark the two glasses of one group.",
    "duo-trio": "Glass R is known. Which of the other two holds the same beer as R?",
    DIFFERENCE_FROM_CONTROL: "Compare each glass with glass C: 0 is no difference, 10 is very "
    "large. One of them may be the same beer as C.",
}


def ballots_page(panel: Panel) -> str:
    """All ballots of a panel, to print and fold; spare sets come last."""
    sheets = "".join(_ballot(panel, serving) for serving in panel.servings)
    head = f"<h1>Ballots: {escape(panel.batch)}</h1>"
    return sheet(f"Ballots: {panel.batch}", head + sheets, _STYLE)


def question_of(panel: Panel) -> str:
    """What the taster is asked."""
    if panel.test in _ASKS:
        return _ASKS[panel.test]
    return f"Which glass has the most of this flavour: {panel.ask}?"


def _ballot(panel: Panel, serving: Serving) -> str:
    rounds = f", round {serving.round} of {panel.rounds}" if panel.rounds > 1 else ""
    known = {"duo-trio": "R", DIFFERENCE_FROM_CONTROL: "C"}.get(panel.test)
    glasses = [known] if known else []
    marks = "".join(
        _glass(panel, code, code in serving.codes) for code in [*glasses, *serving.codes]
    )
    return (
        f'<article class="sheet"><div class="top"><h2>{escape(serving.taster)}{rounds}</h2>'
        f"{text('Taste from left to right, as often as you like. You may spit. Say nothing.')}"
        f'<p><strong>{escape(question_of(panel))}</strong></p><div class="glasses">{marks}</div>'
        f"{text('You must choose, even if you are not sure. Then say how sure you are:')}"
        f"<p>{_box('guess')}{_box('think so')}{_box('certain')}</p>"
        f'<p class="small">{escape(_CARE)}</p></div>'
        f'<div class="fold small">Fold here, and open it only when you have chosen. Do not change '
        "your choice any more.</div>"
        f"{text('What was it like? Which did you like less, and why?')}"
        f'{_LINES}<p class="small">When: ________ &nbsp; Your answers are kept under your '
        "pseudonym only.</p></article>"
    )


_LINES = '<div class="line"></div>' * 3
_CARE = (
    "You need not swallow, nor finish a glass; you may stop at any time without a reason. Whoever "
    "has tasted does not drive today."
)


def _glass(panel: Panel, code: str, is_coded: bool) -> str:
    if not is_coded:
        return (
            f'<div class="glass"><div class="code">{code}</div><div class="small">known</div></div>'
        )
    mark = "0–10: ____" if panel.test == DIFFERENCE_FROM_CONTROL else '<span class="box"></span>'
    return f'<div class="glass"><div class="code">{escape(code)}</div><div>{mark}</div></div>'


def _box(words: str) -> str:
    return f'<span class="box"></span>{words}'
