"""A logger's export read with saved answers, and the answers kept, listed and forgotten."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from diagnose.answers import ProbeAnswer, ProfileLine, ProfilesAnswer
from diagnose.batch.probe.choices import Choices
from diagnose.batch.probe.log import Note
from diagnose.batch.probe.profile_file import forget_profile, keep_profile, read_profiles
from diagnose.batch.probe.profiles import Profile, Profiles, profile_for
from diagnose.batch.probe.reading import Reading, read_with
from diagnose.batch.probe.zones import find_zone
from diagnose.consult.probes import describe_probe
from diagnose.errors import Fault, StoreUnusable, UnusableInput


@dataclass(frozen=True)
class ProbeQuestion:
    """A file, what is said of it, and the saved profile to use and to save to, None for neither.

    `place` is the file of profiles, None where none is to be used.
    """

    file: Path
    choices: Choices
    place: Path | None
    profile: str | None = None
    save_as: str | None = None


def answer_probe(
    question: ProbeQuestion,
    tell: Callable[[str], None] = lambda step: None,  # noqa: ARG005
) -> ProbeAnswer:
    """Read a logger's export, say what is in it, and keep the answers when asked to.

    A damaged file of profiles is no reason not to read a log: it is said, and none is used.

    Args:
        question: the file and what is said of it.
        tell: told what is being done, in a few words.

    Raises:
        UnusableInput: the file is no log, or the profile named does not fit it.
        StoreUnusable: the file of profiles is needed, and damaged.
    """
    needed = question.profile is not None or question.save_as is not None
    saved, notes = _saved(question.place, needed=needed)
    profiles = Profiles(saved, named=question.profile or "")
    reading = read_with(question.file, question.choices, profiles, tell=tell)
    if question.save_as is not None:
        notes += (_keep(question, reading, question.save_as),)
    log = replace(reading.log, notes=(*reading.log.notes, *notes))
    return describe_probe(log, saved_as=question.save_as)


def list_saved(place: Path | None) -> ProfilesAnswer:
    """Every saved profile.

    Raises:
        StoreUnusable: their file is damaged.
    """
    profiles = read_profiles(place)
    lines = tuple(_line(name, profile) for name, profile in profiles.items())
    return ProfilesAnswer(file=None if place is None else str(place), profiles=lines)


def forget_saved(place: Path | None, name: str) -> ProfilesAnswer:
    """Forget one profile and list the others.

    Raises:
        UnusableInput: there is none of that name.
        StoreUnusable: their file is damaged.
    """
    forget_profile(place, name)
    return list_saved(place).model_copy(update={"forgotten": name})


def _saved(place: Path | None, *, needed: bool) -> tuple[dict[str, Profile], tuple[Note, ...]]:
    try:
        return read_profiles(place), ()
    except StoreUnusable as damage:
        if needed:
            raise
        return {}, (Note("warn", f"no saved profile was looked for: {damage}"),)


def _keep(question: ProbeQuestion, reading: Reading, name: str) -> Note:
    """Keep the answers that the file was read with."""
    if not reading.choices:
        wanted = "an answer to keep: --unit, --zone, --day-first, --month-first or --column"
        raise UnusableInput(Fault("--save-profile", 0, "", "nothing said of the file", wanted))
    if reading.choices.zone is not None:
        find_zone(reading.choices.zone, "--zone")
    profile = profile_for(reading.layout, reading.choices)
    replaced = keep_profile(question.place, name, profile)
    kept = "kept in place of the earlier ones" if replaced else "kept"
    text = (
        f"{kept} as profile {name!r} for files with these columns: {reading.choices.in_words()}"
        f" (in {question.place})"
    )
    return Note("info", text)


def _line(name: str, profile: Profile) -> ProfileLine:
    return ProfileLine(
        name=name,
        columns=profile.columns,
        delimiter=profile.delimiter,
        unit=profile.unit,
        dates=profile.dates,
        zone=profile.zone,
        parts=dict(profile.parts),
        says=profile.choices.in_words(),
    )
