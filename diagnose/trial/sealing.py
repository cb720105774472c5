"""The key of a panel under seal: hidden from a glance, and any change to it shows.

The seal is no lock. Whoever is bent on opening it can; whoever changes it is found out, since
the host's sheet shows a hash that no other key fits.
"""

import json
from base64 import b64decode, b64encode
from binascii import Error as NotBase64
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from diagnose.errors import Fault, UnusableInput
from diagnose.trial.panel import Panel, Served

_HEADING = "faultwort sealed key 1; `faultwort split read` opens it when all ballots are in"


@dataclass(frozen=True)
class Key:
    """Which arm is in which glass, which two arms and which pair of vessels were served."""

    arms: dict[str, str]
    open_glass: dict[str, str]
    compared: tuple[str, str]
    pair: int
    seed: int
    salt: str


def key_of(served: Served, compared: tuple[str, str], pair: int, secret: tuple[int, str]) -> Key:
    """The key of a panel.

    Args:
        served: the panel as drawn.
        compared: labels of the suspect arm and of the other.
        pair: pair of vessels.
        secret: the seed of the draw, and a salt that nobody can guess.
    """
    seed, salt = secret
    return Key(dict(served.arms), dict(served.open_glass), compared, pair, seed, salt)


def commitment_of(key: Key) -> str:
    """The salted hash that ties down the key without showing it (SHA-256, hexadecimal)."""
    return sha256(_plain(key)).hexdigest()


def _plain(key: Key) -> bytes:
    data = {
        "arms": key.arms,
        "open_glass": key.open_glass,
        "compared": list(key.compared),
        "pair": key.pair,
        "seed": key.seed,
        "salt": key.salt,
    }
    return json.dumps(data, sort_keys=True, separators=(",", ":")).encode()


def sealed(key: Key) -> str:
    """The text of the sealed file."""
    nonce = sha256(b"nonce" + _plain(key)).digest()[:16]
    return f"{_HEADING}\n{b64encode(nonce + _covered(_plain(key), nonce)).decode()}\n"


def _covered(data: bytes, nonce: bytes) -> bytes:
    """The data under a stream of hashes; done twice it comes back."""
    stream = b"".join(
        sha256(nonce + number.to_bytes(4, "big")).digest() for number in range(len(data) // 32 + 1)
    )
    return bytes(left ^ right for left, right in zip(data, stream, strict=False))


def opened(text: str, panel: Panel, name: str) -> Key:
    """The key from the text of the sealed file.

    Args:
        text: the file's text.
        panel: carries the hash that was written down before pouring.
        name: the file's name, for messages.

    Raises:
        UnusableInput: the file was opened or changed by hand, or belongs to another panel.
    """
    try:
        raw = b64decode(text.strip().splitlines()[-1], validate=True)
        data = json.loads(_covered(raw[16:], raw[:16]))
        key = _key_from(data)
    except (ValueError, KeyError, IndexError, TypeError, NotBase64):
        raise _broken(name, "a key that no longer reads") from None
    glasses = {code for serving in panel.servings for code in serving.codes}
    if commitment_of(key) != panel.commitment or set(key.arms) != glasses:
        raise _broken(name, "a key that does not fit the hash on the host's sheet")
    return key


def _key_from(data: dict[str, Any]) -> Key:
    first, second = data["compared"]
    return Key(
        dict(data["arms"]),
        dict(data["open_glass"]),
        (first, second),
        data["pair"],
        data["seed"],
        data["salt"],
    )


def _broken(name: str, found: str) -> UnusableInput:
    wanted = (
        "the key as it was sealed: it was opened or changed by hand, so this panel proves nothing; "
        "pour a new one"
    )
    return UnusableInput(Fault(name, 0, "", found, wanted))
