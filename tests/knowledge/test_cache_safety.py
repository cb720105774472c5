"""A kept file that is damaged, foreign or not the user's own is never used."""

import os
import pickle
import stat
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.documents import Document
from diagnose.documents.yaml12 import _Walk, dotted
from diagnose.errors import UnusableInput
from diagnose.shipped.cache_folder import cache_folder
from tests.knowledge.keeping import NUMBER, Desk, filled

POSIX_ONLY = pytest.mark.skipif(sys.platform == "win32", reason="owners and modes are POSIX's")
KEY_BYTES = 32


@given(at=st.floats(0.0, 1.0, exclude_max=True), byte=st.integers(0, 255))
def test_a_file_with_any_byte_changed_is_not_used(at: float, byte: int) -> None:
    with TemporaryDirectory() as folder:
        desk = filled(Path(folder))
        raw = bytearray(desk.kept.read_bytes())
        place = int(at * len(raw))
        was, raw[place] = raw[place], byte
        desk.kept.write_bytes(raw)
        assert desk.makes_anew() == (byte != was)


@given(share=st.floats(0.0, 1.0, exclude_max=True))
def test_a_file_cut_short_anywhere_is_not_used(share: float) -> None:
    with TemporaryDirectory() as folder:
        desk = filled(Path(folder))
        raw = desk.kept.read_bytes()
        desk.kept.write_bytes(raw[: int(share * len(raw))])
        assert desk.makes_anew()


def test_a_file_that_was_not_used_is_put_right(tmp_path: Path) -> None:
    desk = filled(tmp_path)
    desk.kept.write_bytes(b"")
    assert (desk.makes_anew(), desk.makes_anew()) == (True, False)


def test_a_file_made_from_something_else_is_not_used_under_this_name(tmp_path: Path) -> None:
    desk = filled(tmp_path / "one")
    raw = desk.kept.read_bytes()
    other = filled(tmp_path / "other")
    other.source.write_text("value: 3", "utf-8")
    before = set(other.cache.iterdir())
    other.ask()
    (new,) = set(other.cache.iterdir()) - before
    new.write_bytes(raw)
    assert other.makes_anew()


class _Call:
    """What a forged file might hold: a call that is made while it is read."""

    def __init__(self, call: Callable[..., object], *typed: object) -> None:
        self.call, self.typed = call, typed

    def __reduce__(self) -> tuple[Callable[..., object], tuple[object, ...]]:
        return self.call, self.typed


FORGED = {
    "a call of the system": _Call(os.getcwd),
    "a builtin": _Call(eval, "1"),
    "a function of ours": _Call(dotted, ("a",)),
    "a class of ours that is no record": _Call(_Walk, "a", False, dotted),
    "a record of another room": _Call(UnusableInput),
}


def forge(desk: Desk, payload: bytes) -> None:
    """Put `payload` in place of what is kept, with the digests it needs to be read."""
    key = desk.kept.read_bytes()[:KEY_BYTES]
    desk.kept.write_bytes(key + sha256(payload).digest() + payload)


def calling(call: _Call) -> bytes:
    """A pickle that makes the call, drops what comes of it, and goes on to the right answer."""
    return pickle.dumps(call, protocol=2)[:-1] + pickle.POP + pickle.dumps(NUMBER, protocol=2)


@pytest.mark.parametrize("what", FORGED)
def test_a_forged_file_that_calls_anything_but_a_record_is_not_used(
    tmp_path: Path, what: str
) -> None:
    assert pickle.loads(calling(FORGED[what])) == NUMBER
    desk = filled(tmp_path)
    forge(desk, calling(FORGED[what]))
    assert desk.makes_anew()


def test_a_forged_file_reaches_nothing_through_what_our_modules_import(tmp_path: Path) -> None:
    desk, told = filled(tmp_path / "desk"), tmp_path / "told"
    # STACK_GLOBAL takes a dotted name; no class writes one of itself, so it is written here.
    name = b"\x8c\x17diagnose.documents.text\x8c\x0aPath.touch\x93"
    payload = b"\x80\x04" + name + pickle.dumps((told,), protocol=2)[2:-1] + b"R."
    pickle.loads(payload)
    assert told.exists()
    told.unlink()
    forge(desk, payload)
    assert (desk.makes_anew(), told.exists()) == (True, False)


@pytest.mark.parametrize("answer", [1, None, "value: 2", Document("a", None, {})])
def test_a_file_with_another_answer_than_asked_for_is_not_used(
    tmp_path: Path, answer: object
) -> None:
    desk = filled(tmp_path)
    forge(desk, pickle.dumps(answer))
    assert desk.makes_anew()


def test_a_file_with_the_right_answer_is_used(tmp_path: Path) -> None:
    desk = filled(tmp_path)
    forge(desk, pickle.dumps(NUMBER))
    assert not desk.makes_anew()


@POSIX_ONLY
def test_folder_and_file_are_for_the_user_alone(tmp_path: Path) -> None:
    umask = os.umask(0)
    try:
        desk = filled(tmp_path)
    finally:
        os.umask(umask)
    modes = [stat.S_IMODE(path.stat().st_mode) for path in (desk.cache, desk.kept)]
    assert modes == [0o700, 0o600]


@POSIX_ONLY
@pytest.mark.parametrize("mode", [0o620, 0o602, 0o666])
def test_a_file_that_others_may_write_is_not_used(tmp_path: Path, mode: int) -> None:
    desk = filled(tmp_path)
    desk.kept.chmod(mode)
    assert desk.makes_anew()


@POSIX_ONLY
@pytest.mark.parametrize("mode", [0o720, 0o702, 0o777])
def test_a_folder_that_others_may_write_is_neither_read_nor_written(
    tmp_path: Path, mode: int
) -> None:
    desk = filled(tmp_path)
    desk.cache.chmod(mode)
    desk.kept.unlink()
    assert (desk.makes_anew(), list(desk.cache.iterdir())) == (True, [])


@POSIX_ONLY
def test_a_file_of_another_user_is_not_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = filled(tmp_path)
    monkeypatch.setattr(os, "geteuid", lambda: desk.kept.stat().st_uid + 1)
    assert desk.makes_anew()


@POSIX_ONLY
@pytest.mark.parametrize("put", ["a link", "a pipe", "a folder"])
def test_what_is_no_plain_file_is_not_used(tmp_path: Path, put: str) -> None:
    desk, elsewhere = filled(tmp_path), tmp_path / "elsewhere"
    place = desk.kept
    place.rename(elsewhere)
    {"a link": lambda: place.symlink_to(elsewhere), "a pipe": lambda: os.mkfifo(place)}.get(
        put, place.mkdir
    )()
    assert desk.makes_anew()


# The XDG Base Directory Specification 0.8; the other two systems from memory.
FOLDERS = [
    ({"FAULTWORT_CACHE": ""}, "linux", None),
    ({"FAULTWORT_CACHE": "/a/b", "XDG_CACHE_HOME": "/c", "HOME": "/h"}, "linux", "/a/b"),
    ({"XDG_CACHE_HOME": "/c", "HOME": "/h"}, "linux", "/c/faultwort"),
    ({"XDG_CACHE_HOME": "c", "HOME": "/h"}, "linux", "/h/.cache/faultwort"),
    ({"XDG_CACHE_HOME": "", "HOME": "/h"}, "linux", "/h/.cache/faultwort"),
    ({"HOME": "/h"}, "freebsd14", "/h/.cache/faultwort"),
    ({"HOME": "/h"}, "darwin", "/h/Library/Caches/faultwort"),
    ({"HOME": ""}, "linux", None),
    ({}, "linux", None),
    ({}, "darwin", None),
    ({"LOCALAPPDATA": "/u/Local"}, "win32", "/u/Local/faultwort/cache"),
    ({}, "win32", None),
]


@POSIX_ONLY
@pytest.mark.parametrize(("environ", "platform", "wanted"), FOLDERS)
def test_the_cache_is_where_the_system_keeps_such_things(
    environ: dict[str, str], platform: str, wanted: str | None
) -> None:
    assert cache_folder(environ, platform) == (Path(wanted) if wanted else None)
