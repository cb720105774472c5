"""Bytes of an export to text: size, binary files, encodings, and the fingerprint of the file."""

import codecs
import hashlib
from dataclasses import dataclass
from pathlib import Path

from diagnose.batch.probe.log import Note, Understood
from diagnose.errors import Fault, UnusableInput

# Judgement: a reading every 10 seconds for two years stays below this.
LARGEST_BYTES = 100_000_000
# Judgement: a Western text file in UTF-16 is nearly half NUL bytes, and all on one side.
UTF16_NUL_SHARE = 0.3
# Judgement: text has next to no control characters; compressed or machine code has one in ten.
BINARY_CONTROL_SHARE = 0.01
PEEK_BYTES = 65_536

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig", "UTF-8"),
    (codecs.BOM_UTF32_LE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF32_BE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF16_LE, "utf-16", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16", "UTF-16"),
)
_CONTROLS = bytes(set(range(32)) - set(b"\t\n\r\f"))
_WANTED = "a text file with one reading a line (CSV)"


@dataclass(frozen=True)
class RawLog:
    """The text of an export, line by line, with the fingerprint of the untouched file."""

    name: str
    sha256: str
    lines: tuple[str, ...]
    encoding: Understood
    notes: tuple[Note, ...]


def read_raw(path: Path) -> RawLog:
    """The lines of an export and how its bytes were understood.

    Raises:
        UnusableInput: missing, a folder, unreadable, empty, binary, or over `LARGEST_BYTES`.
    """
    name = str(path)
    raw = _read_bytes(path, name)
    text, encoding = _decode(raw, name)
    notes: tuple[Note, ...] = ()
    if "\x00" in text:
        text = text.replace("\x00", "")
        notes = (Note("warn", "empty (NUL) bytes were skipped, as a power cut leaves them behind"),)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not any(line.strip() for line in lines):
        raise _refusal(name, "an empty file", _WANTED)
    return RawLog(name, hashlib.sha256(raw).hexdigest(), tuple(lines), encoding, notes)


def _read_bytes(path: Path, name: str) -> bytes:
    if path.is_dir():
        raise _refusal(name, "a folder", "a logger's CSV file")
    if not path.exists():
        raise _refusal(name, "no such file", "the path of a file that exists")
    try:
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            most = f"at most {LARGEST_BYTES / 1e6:.0f} MB: export hourly means, or split the file"
            raise _refusal(name, f"{size / 1e6:.1f} MB", most)
        return path.read_bytes()
    except OSError as error:
        reason = error.strerror or "an unreadable file"
        raise _refusal(name, reason.lower(), "a file that may be read") from error


def _decode(raw: bytes, name: str) -> tuple[str, Understood]:
    """The text, by its byte order mark, by the shape of its NUL bytes, or by what is valid."""
    for mark, codec, label in _MARKS:
        if raw.startswith(mark):
            known = Understood(label, "the file starts with its byte order mark", certain=True)
            return raw.decode(codec, errors="replace"), known
    peek = raw[:PEEK_BYTES]
    for codec, offset in (("utf-16-le", 1), ("utf-16-be", 0)):
        side = peek[offset::2]
        if (
            side
            and side.count(0) > UTF16_NUL_SHARE * len(side)
            and not peek[1 - offset :: 2].count(0)
        ):
            guess = Understood("UTF-16", "every other byte is empty", certain=False)
            return raw.decode(codec, errors="replace"), guess
    _refuse_binary(peek, name)
    return _decode_bytewise(raw)


def _refuse_binary(peek: bytes, name: str) -> None:
    if peek.startswith(b"PK\x03\x04"):
        raise _refusal(name, "a workbook or a zip file", _WANTED + ", saved from it")
    text = peek.replace(b"\x00", b"")
    controls = len(text) - len(text.translate(None, _CONTROLS))
    if controls > BINARY_CONTROL_SHARE * max(len(text), 1):
        raise _refusal(name, "a binary file", _WANTED)


def _decode_bytewise(raw: bytes) -> tuple[str, Understood]:
    if raw.isascii():
        return raw.decode("ascii"), Understood("ASCII", "no byte is above 127", certain=True)
    try:
        return raw.decode("utf-8"), Understood("UTF-8", "every byte fits UTF-8", certain=True)
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        why = f"byte 0x{raw[error.start]:02x} on line {line} is not UTF-8"
        return raw.decode("latin-1"), Understood("Latin-1", why, certain=False)


def _refusal(name: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(name, 0, "", found, wanted))
