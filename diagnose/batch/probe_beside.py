"""The logger's file that a batch record names, read with what the record says about it."""

import os
import sys
from collections.abc import Mapping

from diagnose.batch.entries import NotLogged
from diagnose.batch.probe import ProbeLog
from diagnose.batch.probe.choices import Choices
from diagnose.batch.probe.profile_file import profile_place, read_profiles
from diagnose.batch.probe.profiles import Profiles
from diagnose.batch.probe.reading import read_with
from diagnose.batch.reading import Batch
from diagnose.errors import UnusableInput


def log_beside(batch: Batch, environment: Mapping[str, str] = os.environ) -> ProbeLog | None:
    """The probe log named in a record, read with the record's zone; None where none is named.

    A batch out of the history has its log with it. A saved profile is used only where the record
    names it, so that a record means the same on every machine, or is refused.

    Args:
        batch: the record.
        environment: says where profiles are kept.

    Raises:
        UnusableInput: the file is not there or cannot be read, or its profile is not saved here.
    """
    if batch.kept_as is not None:
        return batch.log
    name = batch.record.fermentation.probe_log
    if isinstance(name, NotLogged):
        return None
    path = batch.folder / name
    if not path.is_file():
        entry = ("fermentation", "probe_log")
        raise UnusableInput(batch.document.fault(entry, str(name), "a file beside the record"))
    zone = batch.record.zone
    choices = Choices(zone=zone if isinstance(zone, str) else None)
    return read_with(path, choices, _named_profile(batch, environment)).log


def _named_profile(batch: Batch, environment: Mapping[str, str]) -> Profiles:
    name = batch.record.fermentation.probe_profile
    if isinstance(name, NotLogged):
        return Profiles()
    saved = read_profiles(profile_place(environment, sys.platform))
    if name not in saved:
        known = f"one of {', '.join(saved)}, or " if saved else ""
        wanted = f"{known}a profile saved here (faultwort probe FILE --save-profile NAME)"
        entry = ("fermentation", "probe_profile")
        raise UnusableInput(batch.document.fault(entry, repr(str(name)), wanted))
    return Profiles(saved, named=str(name))
