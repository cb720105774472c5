"""The few facts that everything needs, asked for first.

What a choice writes is what a record may hold; a test holds each against the record.
"""

from typing import Final

from diagnose.consult.guided_slots import Slot, at, same

_DATES = "today, 3 weeks ago, 5 Sep, 2026-09-05"

OPENING: Final = (
    Slot(
        at("tastings.0.words"),
        "What does it taste or smell of?",
        "text",
        why="Everything else is weighed against the words; your own are best.",
        hint="for example: faint wet cardboard, not sour",
        needed=True,
    ),
    Slot(
        at("tastings.0.when"),
        "Which day was it tasted?",
        "date",
        why="How long the beer had stood by then tells staling from green beer.",
        hint=_DATES,
    ),
    Slot(
        at("brewed"),
        "When was it brewed?",
        "date",
        why="Every other date counts from brew day.",
        hint=_DATES,
    ),
    Slot(
        at("method"),
        "Was it brewed from grain, from extract, or from both?",
        "word",
        why="Extract and grain go wrong in different places.",
        choices=(
            ("all grain", "all grain"),
            ("extract", "extract"),
            ("part extract", "both (part extract)"),
        ),
    ),
    Slot(
        at("style"),
        "What beer was it meant to be?",
        "style",
        why="What is a fault in one beer belongs in another.",
        hint="pale ale, stout, pilsner, wheat beer",
    ),
    Slot(
        at("pitch.yeast.family"),
        "Which kind of yeast?",
        "yeast",
        why="The yeast decides how warm is too warm, and which flavours are its own.",
        hint="clean ale, english ale, lager, wheat beer yeast, saison yeast",
    ),
    Slot(
        at("packaging.package"),
        "What was it packaged in?",
        "word",
        why="Bottle, keg and cask let in air, light and wild yeast in different ways.",
        choices=same("bottle", "keg", "can", "cask"),
    ),
    Slot(
        at("packaging.when"),
        "When was it packaged?",
        "date",
        why="The age in the package tells staling from green beer.",
        hint=_DATES,
    ),
)
