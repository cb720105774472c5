"""Bytes of an export to text: size, binary files, encodings, and the fingerprint of the file."""

import codecs
import hashlib
from concurrent.futures import Future, ThreadPoolExecutor
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
    """The text of an export with the fingerprint of the untouched file.

    `text` is in UTF-8 whatever the file was in, every line ending with one newline sign.
    """

    name: str
    fingerprint: Future[str]
    text: bytes
    encoding: Understood
    notes: tuple[Note, ...]

    @property
    def sha256(self) -> str:
        """The fingerprint of the file, waited for when it is not done yet."""
        return self.fingerprint.result()

    @property
    def lines(self) -> list[str]:
        """Every line; for a long file that is many times its size."""
        return self.text.decode("utf-8").split("\n")

    def start_of(self, line: int) -> int:
        """The byte at which a line starts; lines count from 1."""
        at = 0
        for _ in range(line - 1):
            at = self.text.find(b"\n", at) + 1 or len(self.text) + 1
        return min(at, len(self.text))

    def head(self, lines: int) -> list[str]:
        """The first so many lines."""
        return self.text[: self.start_of(lines + 1)].decode("utf-8").split("\n")[:lines]


def read_raw(path: Path) -> RawLog:
    """The text of an export and how its bytes were understood.

    Raises:
        UnusableInput: missing, a folder, unreadable, empty, binary, or over `LARGEST_BYTES`.
    """
    name = str(path)
    raw = _read_bytes(path, name)
    # A fingerprint takes as long as much of the reading, and nothing waits for it till the end.
    beside = ThreadPoolExecutor(max_workers=1)
    fingerprint = beside.submit(lambda: hashlib.sha256(raw).hexdigest())
    beside.shutdown(wait=False)
    text, encoding = _decode(raw, name)
    notes: tuple[Note, ...] = ()
    if b"\x00" in text:
        text = text.replace(b"\x00", b"")
        notes = (Note("warn", "empty (NUL) bytes were skipped, as a power cut leaves them behind"),)
    if b"\r" in text:
        text = text.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if not _says_anything(text):
        raise _refusal(name, "an empty file", _WANTED)
    return RawLog(name, fingerprint, text, encoding, notes)


def _says_anything(text: bytes) -> bool:
    peek = text[:PEEK_BYTES].decode("utf-8", errors="ignore")
    return bool(peek.strip() or text[PEEK_BYTES:].decode("utf-8", errors="ignore").strip())


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


def _decode(raw: bytes, name: str) -> tuple[bytes, Understood]:
    """The text, by its byte order mark, by the shape of its NUL bytes, or by what is valid."""
    for mark, codec, label in _MARKS:
        if raw.startswith(mark):
            known = Understood(label, "the file starts with its byte order mark", certain=True)
            return _in_utf8(raw, codec), known
    peek = raw[:PEEK_BYTES]
    for codec, offset in (("utf-16-le", 1), ("utf-16-be", 0)):
        side = peek[offset::2]
        if (
            side
            and side.count(0) > UTF16_NUL_SHARE * len(side)
            and not peek[1 - offset :: 2].count(0)
        ):
            guess = Understood("UTF-16", "every other byte is empty", certain=False)
            return _in_utf8(raw, codec), guess
    _refuse_binary(peek, name)
    return _decode_bytewise(raw)


def _in_utf8(raw: bytes, codec: str) -> bytes:
    return raw.decode(codec, errors="replace").encode("utf-8", errors="replace")


def _refuse_binary(peek: bytes, name: str) -> None:
    if peek.startswith(b"PK\x03\x04"):
        raise _refusal(name, "a workbook or a zip file", _WANTED + ", saved from it")
    text = peek.replace(b"\x00", b"")
    controls = len(text) - len(text.translate(None, _CONTROLS))
    if controls > BINARY_CONTROL_SHARE * max(len(text), 1):
        raise _refusal(name, "a binary file", _WANTED)


def _decode_bytewise(raw: bytes) -> tuple[bytes, Understood]:
    if raw.isascii():
        return raw, Understood("ASCII", "no byte is above 127", certain=True)
    at = _first_not_utf8(raw)
    if at is None:
        return raw, Understood("UTF-8", "every byte fits UTF-8", certain=True)
    line = raw[:at].count(b"\n") + 1
    why = f"byte 0x{raw[at]:02x} on line {line} is not UTF-8"
    return _in_utf8(raw, "latin-1"), Understood("Latin-1", why, certain=False)


def _first_not_utf8(raw: bytes) -> int | None:
    """Where the first byte stands that is not UTF-8, looked for block by block to save memory."""
    start = 0
    while start < len(raw):
        # Cut at the end of a line, so that no sign of several bytes is cut in two.
        stop = raw.find(b"\n", start + PEEK_BYTES) + 1 or len(raw)
        block = raw[start:stop]
        try:
            if not block.isascii():
                block.decode("utf-8")
        except UnicodeDecodeError as error:
            return start + error.start
        start = stop
    return None


def _refusal(name: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(name, 0, "", found, wanted))
