"""One descriptor as it stands on its card in rules/descriptors/."""

from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

from diagnose.documents.number import Number

Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$")]
Line = Annotated[str, StringConstraints(min_length=1, pattern=r"^[^\n]+$")]
Phrase = Annotated[str, StringConstraints(min_length=1, pattern=r"^[^A-Z\n]+$")]
Sense = Literal["aroma", "taste", "mouthfeel", "appearance", "reading"]


class Confusion(BaseModel):
    """A descriptor this one is taken for, and what tells the two apart; read both ways."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    id: Id
    trick: Line


class DescriptorCard(BaseModel):
    """A flavour word of the trade and the words people type for it.

    `phrasings` were seen on practitioner pages or are ordinary usage from memory. `match_only`
    holds household names that people type: they are matched and never shown.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    id: Id
    name: Line
    senses: Annotated[tuple[Sense, ...], Field(min_length=1)]
    says: Line
    asks: Line
    wrong_word: Number
    phrasings: Annotated[tuple[Phrase, ...], Field(min_length=1)]
    match_only: tuple[Phrase, ...] = ()
    confused_with: tuple[Confusion, ...] = ()
    wheel: Annotated[str, StringConstraints(pattern=r"^\d{4}$")] | None = None
    wheel_status: Literal["verified", "recalled"] | None = None

    @model_validator(mode="after")
    def _is_whole(self) -> Self:
        if not 0 < self.wrong_word.value < 1:
            raise ValueError(f"found wrong_word {self.wrong_word.value:g}; wanted a probability")
        if (self.wheel is None) != (self.wheel_status is None):
            raise ValueError("found one of wheel and wheel_status; wanted both or neither")
        if not self.asks.endswith("?"):
            raise ValueError(f"found asks {self.asks!r}; wanted a question")
        return self
