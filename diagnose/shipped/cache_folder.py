"""The folder where a user's programs keep what they could make again."""

from collections.abc import Mapping
from pathlib import Path

VARIABLE = "FAULTWORT_CACHE"


def cache_folder(environ: Mapping[str, str], platform: str) -> Path | None:
    """Faultwort's own cache folder, which need not exist yet.

    Args:
        environ: the environment. FAULTWORT_CACHE names another folder; empty, it turns keeping off.
        platform: as in `sys.platform`.

    Returns:
        The folder, or None where nothing is to be kept or no home is known.

    Source: XDG Base Directory Specification 0.8 (a relative XDG_CACHE_HOME is ignored); the
        folders of the other two systems are practice.
    """
    if VARIABLE in environ:
        return Path(environ[VARIABLE]).absolute() if environ[VARIABLE] else None
    if platform == "win32":
        local = environ.get("LOCALAPPDATA")
        return Path(local, "faultwort", "cache") if local else None
    if platform == "darwin":
        return _under_home(environ, "Library", "Caches", "faultwort")
    chosen = Path(environ.get("XDG_CACHE_HOME", ""))
    if chosen.is_absolute():
        return chosen / "faultwort"
    return _under_home(environ, ".cache", "faultwort")


def _under_home(environ: Mapping[str, str], *parts: str) -> Path | None:
    home = Path(environ.get("HOME", ""))
    return home.joinpath(*parts) if home.is_absolute() else None
