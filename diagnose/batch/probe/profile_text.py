"""Profiles as the text of their file, and back."""

from collections.abc import Mapping

import yaml
from pydantic import BaseModel, ConfigDict

from diagnose.batch.probe.profiles import Profile
from diagnose.documents import parse_yaml, read_as


class _File(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    profiles: dict[str, Profile]


def profiles_in(text: str, name: str) -> dict[str, Profile]:
    """The profiles in a file's text.

    Args:
        text: the file's text.
        name: its name, for messages.

    Raises:
        UnusableInput: every fault of the file at once, with its line.
    """
    return dict(read_as(parse_yaml(text, name, as_typed=True), _File).profiles)


def text_of(profiles: Mapping[str, Profile]) -> str:
    """The text of a file with these profiles."""
    plain = {
        name: one.model_dump(mode="json", exclude_defaults=True) for name, one in profiles.items()
    }
    return yaml.safe_dump({"profiles": plain}, sort_keys=False, allow_unicode=True, width=100)
