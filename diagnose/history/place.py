"""Where the store is: as told, as the environment says, or in the user's own data folder."""

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from diagnose.shipped.user_folder import Use, user_folder

VARIABLE: Final = "FAULTWORT_STORE"
_FILE: Final = "history.faultwort"


@dataclass(frozen=True)
class Place:
    """A store's address: the path of an SQLite file, or the URL of any other database."""

    file: Path | None
    url: str

    def __str__(self) -> str:
        return str(self.file) if self.file is not None else _without_password(self.url)


def place_of(
    told: str | None, environment: Mapping[str, str] = os.environ, home: Path | None = None
) -> Place:
    """Where to look for the store.

    Args:
        told: a path or a database URL; None where the user named none.
        environment: its `FAULTWORT_STORE` is used then.
        home: the user's home folder, below which the store is when nobody names one.
    """
    said = told or environment.get(VARIABLE)
    if not said:
        return Place(_data_folder(environment, home or Path.home()) / _FILE, "")
    if "://" not in said:
        return Place(Path(said).expanduser(), "")
    if said.startswith("postgres://"):
        said = said.replace("postgres://", "postgresql://", 1)
    if said.startswith("postgresql://"):
        said = said.replace("postgresql://", "postgresql+psycopg://", 1)
    plain_file = said.startswith("sqlite:///") and "?" not in said
    return Place(Path(said.removeprefix("sqlite:///")) if plain_file else None, said)


def _data_folder(environment: Mapping[str, str], home: Path) -> Path:
    usual = {"LOCALAPPDATA": str(home / "AppData" / "Local"), **environment, "HOME": str(home)}
    # With a home there is always such a folder.
    return user_folder(Use.DATA, usual, sys.platform) or home


def _without_password(url: str) -> str:
    scheme, _, rest = url.partition("://")
    user, at, address = rest.rpartition("@")
    return f"{scheme}://{user.partition(':')[0]}{at}{address}"
