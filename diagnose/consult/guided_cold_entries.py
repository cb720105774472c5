"""The entries a guided record asks for from pitching to the glass.

What a choice writes is what a record may hold; a test holds each against the record.
"""

from typing import Final

from diagnose.consult.guided_slots import YES_NO, Slot, at, same
from diagnose.units import Field

_DATES = "5 Sep, day 6, 2026-09-05"
_PRIMED = ("packaging.sugar", ("glucose", "glucose monohydrate", "sucrose", "extract"))

YEAST: Final = (
    Slot(
        at("pitch.yeast.form"),
        "Was the yeast dry from a pack, liquid from a pack, or harvested slurry?",
        "word",
        choices=(("dry", "dry"), ("liquid", "liquid"), ("slurry", "harvested slurry")),
    ),
    Slot(
        at("pitch.yeast.amount"),
        "How many grams of dry yeast went in?",
        "quantity",
        Field.MASS,
        bare="g",
        only_if=("pitch.yeast.form", ("dry",)),
    ),
    Slot(
        at("pitch.yeast.cells"),
        "How many cells does the pack promise, or did the starter come to?",
        "quantity",
        Field.CELLS,
        only_if=("pitch.yeast.form", ("liquid",)),
        hint="200 billion",
    ),
    Slot(
        at("pitch.yeast.volume"),
        "How much slurry went in?",
        "quantity",
        Field.VOLUME,
        only_if=("pitch.yeast.form", ("slurry",)),
        hint="200 mL",
    ),
    Slot(
        at("pitch.yeast.age"),
        "How old was the yeast when it was pitched, by the date on it?",
        "quantity",
        Field.DURATION,
        hint="3 months",
    ),
    Slot(
        at("pitch.yeast.generation"),
        "Was the yeast fresh from its pack, or reused from an earlier brew?",
        "word",
        choices=(("first", "fresh"), ("reused", "reused")),
    ),
    Slot(
        at("pitch.at"),
        "How warm was the wort when the yeast went in?",
        "quantity",
        Field.TEMPERATURE,
        hint="20 C or 68 F",
    ),
    Slot(
        at("pitch.oxygen.method"),
        "How did air or oxygen get into the wort before pitching?",
        "word",
        choices=(
            ("none", "it did not"),
            *same("splashed", "shaken", "air stone", "pure oxygen"),
        ),
    ),
    Slot(
        at("pitch.nutrient"),
        "Did any yeast nutrient or zinc go into the wort?",
        "word",
        choices=YES_NO,
    ),
)

FERMENTATION: Final = (
    Slot(
        at("gravity.original"),
        "What was the original gravity?",
        "quantity",
        Field.GRAVITY,
        hint="1.052 or 13 P",
    ),
    Slot(
        at("gravity.final"),
        "What was the final gravity?",
        "quantity",
        Field.GRAVITY,
        hint="1.011 or 2.8 P",
    ),
    Slot(
        at("gravity.forced_final"),
        "Where did a warm sample with plenty of fresh yeast end?",
        "quantity",
        Field.GRAVITY,
    ),
    Slot(
        at("gravity.readings"),
        "What does a degassed sample of the packaged beer read now?",
        "reading",
        Field.GRAVITY,
    ),
    Slot(
        at("fermentation.temperature"),
        "How warm was the beer itself in the first three days?",
        "quantity",
        Field.TEMPERATURE,
        hint="19 C, 66 F or 18-20 C; in full ferment it runs warmer than the room",
    ),
    Slot(
        at("fermentation.peak"),
        "What was the warmest the beer got in the first five days?",
        "quantity",
        Field.TEMPERATURE,
    ),
    Slot(
        at("fermentation.lag"),
        "How long from pitching to the first steady bubbling or foam?",
        "quantity",
        Field.DURATION,
        bare="h",
        hint="12 h",
    ),
    Slot(
        at("fermentation.finished"),
        "On what day had the gravity stopped falling?",
        "date",
        hint=_DATES,
    ),
    Slot(
        at("fermentation.vessel"),
        "What is the fermenter?",
        "text",
        hint="plastic bucket, glass demijohn, steel conical",
    ),
    Slot(
        at("fermentation.light"),
        "What light fell on the fermenter?",
        "word",
        choices=same("dark", "room light", "daylight shade", "direct sun"),
    ),
    Slot(
        at("events"),
        "How many times was the fermenter opened after pitching, with no gas over the beer?",
        "count",
        hint="0, 1, 2 ...",
    ),
)

PACKAGE: Final = (
    Slot(
        at("packaging.fill"),
        "How was the beer moved into the package?",
        "word",
        choices=same("open pour", "siphon", "filler tube", "counter-pressure", "closed transfer"),
    ),
    Slot(
        at("packaging.purged"),
        "Was the air driven out of the package with gas before filling?",
        "word",
        choices=YES_NO,
    ),
    Slot(
        at("packaging.sugar"),
        "What was it primed with?",
        "word",
        choices=(
            ("none", "nothing"),
            ("sucrose", "table sugar"),
            ("glucose monohydrate", "brewing sugar (glucose)"),
            ("extract", "extract or saved wort"),
        ),
    ),
    Slot(
        at("packaging.sugar_amount"),
        "How much priming sugar went in, in all?",
        "quantity",
        Field.MASS,
        bare="g",
        only_if=_PRIMED,
        hint="120 g",
    ),
    Slot(
        at("packaging.glass"),
        "Is the flawed beer in clear, green or brown glass, or in none?",
        "word",
        choices=same("clear", "green", "brown", "none"),
    ),
    Slot(
        at("packaging.gushing"),
        "Do cold, settled bottles gush when opened?",
        "word",
        choices=YES_NO,
    ),
    Slot(
        at("storage.0.at"),
        "How warm was the place where the packaged beer stood?",
        "quantity",
        Field.TEMPERATURE,
        hint="on average, 12 C or 54 F",
    ),
    Slot(
        at("storage.0.light"),
        "What light fell on the packaged beer?",
        "word",
        choices=same("dark", "room light", "shop light", "daylight shade", "direct sun"),
    ),
    Slot(
        at("storage.0.light_time"),
        "For how many hours in all did that light fall on it?",
        "quantity",
        Field.DURATION,
        bare="h",
    ),
    Slot(
        at("serving.at"),
        "How warm was the beer in the glass?",
        "quantity",
        Field.TEMPERATURE,
    ),
    Slot(
        at("serving.line_cleaned"),
        "How long before was the beer line last cleaned?",
        "quantity",
        Field.DURATION,
        hint="3 weeks",
    ),
)
