"""Where `rules/` and `cases/` are: inside a wheel, beside an editable install, in a checkout."""

from pathlib import Path

from diagnose.errors import DamagedInstallation

_PACKAGE = Path(__file__).resolve().parents[1]


def shipped(folder: str) -> Path:
    """The folder of shipped data called `folder`.

    Raises:
        DamagedInstallation: it is in neither of the two places where it can be.
    """
    for place in (_PACKAGE / "_shipped" / folder, _PACKAGE.parent / folder):
        if place.is_dir():
            return place
    raise DamagedInstallation(
        f"the folder {folder}/ that ships with Faultwort is missing; install Faultwort again"
    )
