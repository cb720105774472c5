"""Bytes on disk to text, with a plain refusal for what is not a text file a person wrote."""

from pathlib import Path

from diagnose.errors import Fault, UnusableInput

LARGEST_BYTES = 2_000_000


def read_text(path: Path) -> str:
    """The text of a hand-written file.

    Raises:
        UnusableInput: missing, a folder, unreadable, empty, not text, or over `LARGEST_BYTES`.
    """
    name = str(path)
    try:
        if path.is_dir():
            raise _refusal(name, "a folder", "a file")
        with path.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
        size = max(len(raw), path.stat().st_size)
    except FileNotFoundError:
        raise _refusal(name, "no such file", "the path of a file that exists") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _refusal(name, reason.lower(), "the path of a file that may be read") from error
    if size > LARGEST_BYTES:
        raise _refusal(name, f"{size / 1e6:.0f} MB", "a hand-written file of at most 2 MB")
    return _decoded(raw, name)


def _decoded(raw: bytes, name: str) -> str:
    if not raw.strip():
        raise _refusal(name, "an empty file", "at least one entry")
    if b"\x00" in raw:
        raise _refusal(name, "a binary file", "a text file (YAML or JSON)")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        fault = Fault(
            name, line, "", f"a byte that is not UTF-8 (0x{raw[error.start]:02x})", "UTF-8"
        )
        raise UnusableInput(fault) from error


def _refusal(name: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(name, 0, "", found, wanted))
