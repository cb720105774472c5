"""One digest of everything that a piece of work is made from."""

import hashlib
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

_SUFFIXES = (".py", ".yaml")


def fingerprint(parts: Iterable[Path], made_by: str) -> bytes:
    """A digest of every name and byte in `parts`, and of `made_by`.

    Args:
        parts: files, and folders of which all `.yaml` and `.py` files count.
        made_by: whatever else the result depends on, such as versions.

    Raises:
        OSError: one of them cannot be read.
    """
    digest = hashlib.sha256(made_by.encode())
    for part in parts:
        found = _files_in(part) if part.is_dir() else iter([(part.name, str(part))])
        for name, path in found:
            # Unbuffered: several hundred small files are read in a few milliseconds.
            with open(path, "rb", buffering=0) as file:  # noqa: PTH123
                raw = file.read()
            digest.update(f"\0{name}\0{len(raw)}\0".encode())
            digest.update(raw)
    return digest.digest()


def _files_in(folder: Path | str, within: str = "") -> Iterator[tuple[str, str]]:
    """Each file's name within `folder` and its path, in the order of the alphabet."""
    # The listing says what is a folder, so that nothing has to be looked at twice.
    with os.scandir(folder) as listing:
        entries = sorted(listing, key=lambda entry: entry.name)
    for entry in entries:
        if entry.is_dir():
            yield from _files_in(entry.path, f"{within}{entry.name}/")
        elif entry.name.endswith(_SUFFIXES):
            yield f"{within}{entry.name}", entry.path
