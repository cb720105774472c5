"""What can be seen of a store's file before a database opens it."""

from pathlib import Path
from typing import Final

from diagnose.errors import StoreUnusable

# Source: the SQLite file format, section 1.3 (www.sqlite.org/fileformat2.html): the header's
# magic, the page size at 16, the size in pages at 28, valid where 24 equals 92.
_MAGIC: Final = b"SQLite format 3\x00"
_HEADER_BYTES: Final = 100

Trouble = tuple[str, str]
_BACKUP: Final = (
    "keep it, and put the latest copy that 'faultwort history backup' made in its place"
)


def file_trouble(file: Path) -> Trouble | None:
    """What is wrong with the file and what to do about it; None where nothing shows.

    Raises:
        StoreUnusable: the file cannot be read at all.
    """
    if file.is_dir():
        return "it is a folder", "name a file with --store"
    try:
        size = file.stat().st_size
        with file.open("rb") as opened:
            header = opened.read(_HEADER_BYTES)
    except OSError as error:
        why = (error.strerror or "it cannot be read").lower()
        raise StoreUnusable(f"the store {file}: {why}; allow reading and writing it") from error
    if size == 0:
        return "the file is empty", f"if it held your batches, {_BACKUP}; if not, delete it"
    if not header.startswith(_MAGIC):
        return "the file is no database", "name the right file with --store"
    if len(header) < _HEADER_BYTES or size < _bytes_claimed(header):
        if _journal_waits(file):
            return None
        return f"the file is cut short ({size} bytes)", _BACKUP
    return None


def _bytes_claimed(header: bytes) -> int:
    page = int.from_bytes(header[16:18], "big")
    if header[24:28] != header[92:96]:
        return 0
    return (65536 if page == 1 else page) * int.from_bytes(header[28:32], "big")


def _journal_waits(file: Path) -> bool:
    """Whether a journal beside the file may still hold what it lacks."""
    journal = file.with_name(f"{file.name}-wal")
    return journal.exists() and journal.stat().st_size > 0
