"""Work kept from one run for the next, in a folder of the user's own.

A kept file is a pickle, which is quickest to read back but could name any function to run. So
that it can do no harm it is used only when all of this holds, and made anew otherwise:

- Folder and file belong to the user and nobody else may write to them (the folder is made with
  mode 0700, the file with 0600); the file is a plain file and no link. Windows keeps a user's
  files apart by itself, so that neither is asked there.
- It opens with the fingerprint of what it was made from and with a digest of what follows, so
  that one that is damaged, cut short or made from anything else is as good as none.
- Whatever it says, reading it makes records of the rooms named, and nothing else: a function,
  or a class that is no record, is refused before it is called.

Nothing here raises because of a folder or file: without a cache the work is done each time.
"""

import hashlib
import os
import pickle
import stat
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, is_dataclass
from enum import Enum
from io import BytesIO
from pathlib import Path
from typing import Any, Generic, TypeVar

from pydantic import VERSION, BaseModel

from diagnose import __version__
from diagnose.shipped.fingerprint import fingerprint

Result = TypeVar("Result")
_PACKAGE = Path(__file__).resolve().parents[1]
_DIGEST_BYTES = hashlib.sha256().digest_size
# Two checkouts, or an old and a new version, may take turns without driving each other out.
_MOST_KEPT = 4


@dataclass(frozen=True)
class Work(Generic[Result]):
    """Something slow that comes out the same as long as what it is made from stays the same.

    `made_from` are files and folders; `rooms` are the rooms of this package whose records the
    result consists of, so that it is made anew when their code has changed.
    """

    name: str
    result: type[Result]
    made_from: tuple[Path, ...]
    rooms: tuple[str, ...]
    make: Callable[[], Result]


def kept_or_made(work: Work[Result], folder: Path | None) -> Result:
    """The result of `work`: as kept in `folder`, else made now and kept there if that can be.

    Args:
        work: what to do, and what it depends on.
        folder: the cache; None keeps nothing.

    Raises:
        Whatever `work.make` raises; nothing is kept then.
    """
    key = _key(work) if folder is not None else None
    if folder is None or key is None:
        return work.make()
    path = folder / f"{work.name}-{key.hex()[:24]}.kept"
    found = _read(path, key, work.rooms)
    if isinstance(found, work.result):
        return found
    made = work.make()
    # A file that was changed meanwhile may be in the result, and is not in the key.
    if _key(work) == key:
        _keep(path, key, made)
    return made


def _key(work: Work[Any]) -> bytes | None:
    made_by = f"{work.name} {__version__} {sys.version} {VERSION}"
    code = (_PACKAGE / room for room in work.rooms)
    try:
        return fingerprint((*work.made_from, *code), made_by)
    except OSError:
        return None


def _read(path: Path, key: bytes, rooms: tuple[str, ...]) -> object:
    try:
        raw = _own_bytes(path)
    except OSError:
        return None
    payload = memoryview(raw)[2 * _DIGEST_BYTES :]
    if raw[: 2 * _DIGEST_BYTES] != key + hashlib.sha256(payload).digest():
        return None
    try:
        return _Records(BytesIO(payload), rooms).load()
    except Exception:
        # The pickle module does not say what it may raise; whatever it is, the file is unusable.
        return None


def _own_bytes(path: Path) -> bytes:
    """The bytes of a file that only the user can have written; none for any other."""
    if not _is_own(path.parent.stat()):
        return b""
    # Not to wait for a pipe, and not to follow a link, that somebody put in its place.
    flags = os.O_RDONLY
    for flag in ("O_NOFOLLOW", "O_NONBLOCK", "O_BINARY"):
        flags |= getattr(os, flag, 0)
    with os.fdopen(os.open(path, flags), "rb") as file:
        status = os.fstat(file.fileno())
        return file.read() if stat.S_ISREG(status.st_mode) and _is_own(status) else b""


def _is_own(status: os.stat_result) -> bool:
    if sys.platform == "win32":
        return True
    return status.st_uid == os.geteuid() and not status.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


class _Records(pickle.Unpickler):
    """Makes records of the rooms it is told, and refuses every other name in the file."""

    def __init__(self, file: BytesIO, rooms: tuple[str, ...]) -> None:
        super().__init__(file)
        self._rooms = tuple(f"diagnose.{room}." for room in rooms)

    def find_class(self, module: str, name: str) -> Any:
        if not module.startswith(self._rooms) or "." in name:
            raise pickle.UnpicklingError(f"{module}.{name}")
        found = super().find_class(module, name)
        of_here = isinstance(found, type) and found.__module__ == module
        if not of_here or not (is_dataclass(found) or issubclass(found, BaseModel | Enum)):
            raise pickle.UnpicklingError(f"{module}.{name}")
        return found


def _keep(path: Path, key: bytes, made: object) -> None:
    payload = pickle.dumps(made, protocol=5)
    with suppress(OSError):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if _is_own(path.parent.stat()):
            _put(path, key + hashlib.sha256(payload).digest() + payload)
            _forget_oldest(path)


def _put(path: Path, raw: bytes) -> None:
    """Write a file whole or not at all, also when another run writes the same one."""
    # Only a run that keeps something needs it, and it is slow to import.
    from tempfile import NamedTemporaryFile  # noqa: PLC0415

    with NamedTemporaryFile(dir=path.parent, prefix=f"{path.stem}-", delete=False) as file:
        try:
            file.write(raw)
            file.close()
            Path(file.name).replace(path)
        except OSError:
            Path(file.name).unlink(missing_ok=True)
            raise


def _forget_oldest(path: Path) -> None:
    alike = path.parent.glob(f"{path.name.partition('-')[0]}-*")
    for old in sorted(alike, key=lambda one: -one.stat().st_mtime)[_MOST_KEPT:]:
        old.unlink(missing_ok=True)
