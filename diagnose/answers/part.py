"""The base of every answer."""

from pydantic import BaseModel, ConfigDict


class Said(BaseModel):
    """A frozen part of an answer that refuses keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
