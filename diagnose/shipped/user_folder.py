"""The folders that a system gives each user: for settings, for data, for what can be made again."""

from collections.abc import Mapping
from enum import Enum
from pathlib import Path
from typing import Final

_NAME: Final = "faultwort"


class Use(Enum):
    """What a folder is for: the variable that moves it, its place under home, on three systems.

    Elsewhere than on macOS and Windows the value's first pair counts; then the place under home
    on macOS; then the variable that Windows sets, and what follows our name there.
    """

    CACHE = (("XDG_CACHE_HOME", ".cache"), "Library/Caches", ("LOCALAPPDATA", "cache"))
    DATA = (("XDG_DATA_HOME", ".local/share"), "Library/Application Support", ("LOCALAPPDATA", ""))
    SETTINGS = (("XDG_CONFIG_HOME", ".config"), "Library/Application Support", ("APPDATA", ""))


def user_folder(use: Use, environ: Mapping[str, str], platform: str) -> Path | None:
    """Faultwort's own folder for one use; it need not exist yet.

    Args:
        use: what it is for.
        environ: the environment.
        platform: as in `sys.platform`.

    Returns:
        The folder, or None where no home is known.

    Source: XDG Base Directory Specification 0.8 (a relative path in a variable is ignored); the
        folders of the other two systems are practice.
    """
    (variable, below_home), on_macos, (windows_variable, after) = use.value
    if platform == "win32":
        given = environ.get(windows_variable)
        return Path(given, _NAME, after) if given else None
    chosen, home = Path(environ.get(variable, "")), Path(environ.get("HOME", ""))
    if platform != "darwin" and chosen.is_absolute():
        return chosen / _NAME
    below = on_macos if platform == "darwin" else below_home
    return home / below / _NAME if home.is_absolute() else None
