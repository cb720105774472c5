"""The folder where a user's programs keep what they could make again."""

from collections.abc import Mapping
from pathlib import Path

from diagnose.shipped.user_folder import Use, user_folder

VARIABLE = "FAULTWORT_CACHE"


def cache_folder(environ: Mapping[str, str], platform: str) -> Path | None:
    """Faultwort's own cache folder, which need not exist yet.

    Args:
        environ: the environment. FAULTWORT_CACHE names another folder; empty, it turns keeping off.
        platform: as in `sys.platform`.

    Returns:
        The folder, or None where nothing is to be kept or no home is known.
    """
    if VARIABLE in environ:
        return Path(environ[VARIABLE]).absolute() if environ[VARIABLE] else None
    return user_folder(Use.CACHE, environ, platform)
