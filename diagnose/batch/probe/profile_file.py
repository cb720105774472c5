"""The file that keeps a brewer's profiles: one small YAML file in the user's own folder."""

import os
import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Final

from diagnose.errors import Fault, StoreUnusable, UnusableInput
from diagnose.shipped.user_folder import Use, user_folder

if TYPE_CHECKING:
    from diagnose.batch.probe.profiles import Profile

VARIABLE: Final = "FAULTWORT_PROFILES"
_FILE: Final = "probe_profiles.yaml"
_NAME = re.compile(r"\w[\w .-]{0,39}")
_HEADING = "# What you said of your loggers' files; faultwort probe --profiles lists it.\n"


def profile_place(environ: Mapping[str, str], platform: str) -> Path | None:
    """Where profiles are kept; the file need not exist yet.

    Args:
        environ: the environment. FAULTWORT_PROFILES names another file; empty, it turns them off.
        platform: as in `sys.platform`.

    Returns:
        The file, or None where none is to be used or no home is known.
    """
    if VARIABLE in environ:
        return Path(environ[VARIABLE]).absolute() if environ[VARIABLE] else None
    folder = user_folder(Use.SETTINGS, environ, platform)
    return None if folder is None else folder / _FILE


def read_profiles(place: Path | None) -> dict[str, "Profile"]:
    """The profiles in a file by their names; none where there is no file.

    Raises:
        StoreUnusable: the file is no such file; it is left as it is.
    """
    if place is None or not place.exists():
        return {}
    # Few runs have profiles to read, and YAML is slow to import.
    from diagnose.batch.probe.profile_text import profiles_in  # noqa: PLC0415
    from diagnose.documents import read_text  # noqa: PLC0415

    try:
        return profiles_in(read_text(place), str(place))
    except UnusableInput as error:
        raise StoreUnusable(
            f"{error}\nmend the file with saved profiles, or move it away"
        ) from error


def keep_profile(place: Path | None, name: str, profile: "Profile") -> bool:
    """Keep a profile under a name, in place of an earlier one of that name.

    Returns:
        whether there was an earlier one.

    Raises:
        UnusableInput: no such name can be given, or there is no place to keep profiles.
        StoreUnusable: the file is damaged, or cannot be written to.
    """
    if not _NAME.fullmatch(name):
        wanted = "a name of letters, figures, spaces, points and dashes, at most 40"
        raise UnusableInput(Fault("--save-profile", 0, "", repr(name), wanted))
    if place is None:
        wanted = f"a file named by {VARIABLE}, or a home folder"
        raise UnusableInput(Fault("--save-profile", 0, "", "no place for profiles", wanted))
    saved = read_profiles(place)
    _write(place, {**saved, name: profile})
    return name in saved


def forget_profile(place: Path | None, name: str) -> None:
    """Take a profile out of the file.

    Raises:
        UnusableInput: there is none of that name.
        StoreUnusable: the file is damaged, or cannot be written to.
    """
    saved = read_profiles(place)
    if place is None or name not in saved:
        wanted = f"one of {', '.join(saved)}" if saved else "a saved profile; there is none"
        raise UnusableInput(Fault("--forget-profile", 0, "", repr(name), wanted))
    _write(place, {key: one for key, one in saved.items() if key != name})


def _write(place: Path, profiles: Mapping[str, "Profile"]) -> None:
    """The whole file beside its place, then moved there: never half a file."""
    from diagnose.batch.probe.profile_text import text_of  # noqa: PLC0415

    beside = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("w", encoding="utf-8", newline="\n") as file:
            file.write(_HEADING + text_of(profiles))
            file.flush()
            os.fsync(file.fileno())
        beside.replace(place)
    except OSError as error:
        beside.unlink(missing_ok=True)
        reason = (error.strerror or "no access").lower()
        raise StoreUnusable(f"{place}: profiles cannot be written: {reason}") from error
