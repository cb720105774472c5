"""The small words round a flavour word, as they stand in rules/words.yaml."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from diagnose.documents.number import Number
from diagnose.flavour.card import Id, Phrase

Intensity = Literal["faint", "clear", "strong"]
Phrases = tuple[Phrase, ...]


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class Strength(_Part):
    """The words of one intensity, and how it speaks as evidence.

    `said_if_there` and `said_if_not` are relative likelihoods: how readily a taster reports the
    flavour at this strength when it is there, and when it is not. `expected_said` is how readily
    a taster complains so of what yeast and style are meant to bring, against how readily of a
    fault.
    """

    said_if_there: Number
    said_if_not: Number
    expected_said: Number
    words: Phrases


class Strengths(_Part):
    """The three intensities a tasting can carry."""

    faint: Strength
    clear: Strength
    strong: Strength


class Certainty(_Part):
    """How far a reading is trusted; several of them multiply."""

    first_sense: Number
    misspelt: Number
    loose: Number
    unsure: Number
    either_or: Number
    not_this_and_that: Number
    contradicted: Number


class Negations(_Part):
    """Words of denial: before one word, before a whole list, or after the word."""

    not_this: Phrases
    none_of_these: Phrases
    after_the_word: Phrases


class Joiners(_Part):
    """Words between two flavours: both, one of two, or a turn that ends a denial."""

    both: Phrases
    either: Phrases
    turn: Phrases


class Comparisons(_Part):
    """Words that hold a flavour against another beer, and those of what was wished for."""

    weaker: Phrases
    stronger: Phrases
    a_wish: Phrases


class Senses(_Part):
    """Phrases that stand on more than one card, and their meanings, likeliest first."""

    first_to_last: Annotated[tuple[Id, ...], Field(min_length=2)]
    said: Phrases


class WordsFile(_Part):
    """Everything in rules/words.yaml.

    `character_unsaid` is how common yeasts of a character of their own are among beers of which
    neither yeast nor style is named, against their share of all home batches.
    """

    intensity: Strengths
    character_unsaid: Number
    certainty: Certainty
    negations: Negations
    never_a_denial: Phrases
    unsure: Phrases
    fine: Phrases
    joiners: Joiners
    says_anew: Phrases
    comparisons: Comparisons
    circumstances: dict[Id, dict[Id, Phrases]]
    where: Phrases
    spans: dict[Phrase, Annotated[float, Field(gt=0)]]
    numbers: dict[Phrase, Annotated[float, Field(gt=0)]]
    first_weeks_end: Number
    glue: Phrases
    fillers: dict[Id, Phrases]
    becomes: Phrases
    leans_on_next: Phrases
    vague: tuple[Id, ...]
    endings: Phrases
    spellings: dict[Phrase, Phrase]
    never_a_slip: Phrases
    several_senses: tuple[Senses, ...]
