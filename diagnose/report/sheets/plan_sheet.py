"""The plan on paper: cautions, arms, draw, brew sheet, what must be equal, dates, controls."""

from html import escape

from diagnose.answers.chances import percent
from diagnose.report.sheets.frame import grid, items, section, sheet, text, typed_apart
from diagnose.trial.plan import Plan
from diagnose.trial.safety import AFTERWARDS, LOOK_FIRST, WHO_TASTES
from diagnose.trial.steps import setting_words
from diagnose.units import Field, show

_SHOWN_EXPLANATIONS = 5
_MARKS = {"stop": "Stop.", "warn": "Take care.", "note": "Note."}
_DESIGNS = {
    "isolating": "One factor differs and nothing else.",
    "2x2": "Two factors, four arms: each with and without the other.",
    "search": "Search, not proof: several factors differ at once.",
}


def plan_page(plan: Plan) -> str:
    """The plan as a printable page."""
    causes = " and ".join(factor.name for factor in plan.factors)
    body = (
        f"<h1>Split: {escape(causes)}</h1>"
        f"{text(f'{plan.batch}, planned on {plan.made:%d %B %Y}. {_DESIGNS[plan.design]}')}"
        + "".join(
            f'<div class="stop whole"><strong>{_MARKS[one.level]}</strong> {escape(one.text)}</div>'
            for one in plan.cautions
        )
        + section("Arms and vessels", _arms(plan))
        + section("Brew sheet", _steps(plan))
        + section(
            "Dates", grid(("Day", "What"), ((f"{d.day:%a %d %b %Y}", d.what) for d in plan.dates))
        )
        + section("What has to stay equal", _equal(plan))
        + section("Controls", "" if plan.not_served_because else items(plan.controls))
        + section("Keep", items(plan.keep))
        + section("The panel", _panel(plan))
        + section("Stop rules", items(plan.stop_rules))
        + section("Before anybody tastes", _before_tasting(plan))
        + section("Mind", items(plan.remarks))
    )
    return sheet(f"Split plan: {plan.batch}", body)


def _arms(plan: Plan) -> str:
    drawn = {
        arm.label: ", ".join(str(v.number) for v in plan.vessels if v.arm == arm.label)
        for arm in plan.arms
    }
    rows = ((arm.label, setting_words(plan.factors, arm), drawn[arm.label]) for arm in plan.arms)
    factors = "; ".join(factor.what for factor in plan.factors)
    each = show(plan.litres_per_arm, Field.VOLUME)
    return (
        text(f"What differs: {factors}. {each} in each vessel.")
        + grid(("Arm", "Setting", "Vessel"), rows)
        + text(
            f"Drawn by lot, seed {plan.seed}. Arm A brings the fault if the suspect is to blame."
        )
    )


def _steps(plan: Plan) -> str:
    lines = "".join(
        f'<li class="division">Moment of division: {typed_apart(step.do)}</li>'
        if step.division
        else f"<li>{typed_apart(step.do)}</li>"
        for step in plan.steps
    )
    return f"<ol>{lines}</ol>"


def _equal(plan: Plan) -> str:
    watched = [f"{one.what}: {one.why}" for one in plan.equal if not one.shared]
    shared = [one.what for one in plan.equal if one.shared]
    own = text(f"Shared by the division itself: {'; '.join(shared)}.") if shared else ""
    tied = items(f"{one.what}: {one.why}" for one in plan.tied)
    lead = text("The factor takes these along; keep them equal as far as it leaves them so:")
    return own + items(watched) + (lead + tied if plan.tied else "")


def _before_tasting(plan: Plan) -> str:
    told = (*LOOK_FIRST, *WHO_TASTES, *AFTERWARDS)
    return "" if plan.not_served_because else items(told)


def _panel(plan: Plan) -> str:
    if plan.not_served_because:
        return text("None: this beer is not to be tasted, so no panel can read the split.")
    first = plan.explanations[:_SHOWN_EXPLANATIONS]
    ranking = grid(
        ("Explanation before the tasting", "Chance"), ((o.name, percent(o.share)) for o in first)
    )
    fires = ", ".join(percent(factor.fires) for factor in plan.factors)
    asked = f" Asked for: {plan.ask}." if plan.ask else ""
    return (
        text(f"Test: {plan.test}; {plan.why_test}. {plan.tasters} answers.{asked}")
        + ranking
        + text(
            f"Fixed now: if the suspect is responsible the fault shows in {fires}; the arms differ "
            f"harmlessly in {percent(plan.harmless)}; prior on d' half-normal with spread 1.5."
        )
    )
