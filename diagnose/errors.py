"""What can go wrong that a reader can mend, and the exit code each kind ends with."""

from collections.abc import Iterable
from dataclasses import dataclass

# Names, and words of names, less alike than this are not offered first. Judgement.
_NEAR, _NEAR_PART = 0.6, 0.75


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong in one place of one file.

    `line` counts from 1; 0 means the file as a whole.
    """

    file: str
    line: int
    key: str
    found: str
    wanted: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        key = f"{self.key}: " if self.key else ""
        return f"{place}: {key}found {self.found}; wanted {self.wanted}"


def one_of(found: str, known: Iterable[str]) -> str:
    """What is wanted in place of a name that is not known: the known ones, the nearest first."""
    # Most input is right, and then need not wait for this import.
    from difflib import get_close_matches  # noqa: PLC0415

    names, typed = list(known), found.casefold().replace(" ", "_")
    near = get_close_matches(typed, names, n=3, cutoff=_NEAR)
    parts = {part for name in names for part in name.split("_")}
    for part in get_close_matches(typed, sorted(parts), n=2, cutoff=_NEAR_PART):
        near += [name for name in names if part in name.split("_")]
    return f"one of {', '.join(dict.fromkeys([*near, *names]))}"


class FaultwortError(Exception):
    """Anything Faultwort says in a sentence instead of a traceback."""

    exit_code = 2


class UnusableInput(FaultwortError):
    """A file or an argument that cannot be used as it stands; carries every fault found."""

    exit_code = 2

    def __init__(self, *faults: Fault) -> None:
        self.faults = faults
        super().__init__("\n".join(str(fault) for fault in faults))


class UnreadableQuantity(FaultwortError, ValueError):
    """A number with its unit that cannot be read, or could be read in two ways.

    Also a ValueError, so that a record's validator turns it into a fault with its line.
    """

    def __init__(self, found: str, wanted: str) -> None:
        self.found = found
        self.wanted = wanted
        super().__init__(f"found {found}; wanted {wanted}")


class DamagedInstallation(FaultwortError):
    """The files that ship with Faultwort, or its store, are missing or broken."""

    exit_code = 3


class StoreUnusable(FaultwortError):
    """The store of the flaw history cannot be read or written; the sentence says what to do."""

    exit_code = 3
