"""Typed text to one plain spelling: signs, fractions, number words and "about" made alike."""

import re
import unicodedata
from dataclasses import dataclass
from typing import Final

from diagnose.units.field import Field

_SAME: Final = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("≈∼≃", "~"),
        **dict.fromkeys("×⋅·", "x"),
        **dict.fromkeys("’‘′", "'"),
    }
)
_POWER = re.compile("(?<=10)[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+")

_NUMBER_WORDS: Final = {
    "zero": 0,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "seventeen": 17,
    "eighteen": 18,
    "nineteen": 19,
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
_TENS = "|".join(word for word, number in _NUMBER_WORDS.items() if number >= 20)
_ONE_WORD = "|".join(_NUMBER_WORDS)
_NUMBER_WORD = re.compile(rf"\b(?:({_TENS})[ -])?({_ONE_WORD})\b")

_ABOUT_WORDS = "about|around|approximately|approx|roughly|circa|ca|some|nearly|almost"
_ABOUT = re.compile(
    rf"^(?:(?:{_ABOUT_WORDS})\b\.?|c\.(?=\s*\d)|~)\s*"
    r"|(?<=\d)\s?-?ish\b|[\s-]ish\b"
    r"|\s+(?:or so|more or less|approximately|approx\.?|roughly|ca\.?)$"
    r"|^(?=(?:a )?couple )"
)

# What a brewer may write beside the figure without changing it.
_LABELS: Final[dict[Field, re.Pattern[str]]] = {
    field: re.compile(rf"(?<![a-z])(?:{words})(?![a-z])\s*[:=]?\s*")
    for field, words in {
        Field.GRAVITY: "(?:original|final|terminal|specific) gravity|gravity|og|fg|sg|tg",
        Field.PH: "ph",
        Field.PERCENT: "abv|aa|alpha acids?|alpha",
        Field.CELLS: "(?:yeast )?cells?",
        Field.CARBONATION: "(?:of )?co2",
    }.items()
}

# In order: each pattern sees what the ones before it left.
_WORDINGS: Final = tuple(
    (re.compile(pattern), plain)
    for pattern, plain in (
        (r"^(?:a )?couple(?: of)? ", "2 "),
        (r"\+\s*/\s*-|\+-|plus or minus|plus/minus|give or take", "±"),
        (r"^(?:between|from) (.+?) (?:and|to) (.+)$", r"\1 to \2"),
        (r"\b(\d+) and (?:a|1) half\b", r"\1 1/2"),
        (r"\b(?:an?|1) ([a-z]+) and (?:a|1) half$", r"1 1/2 \1"),
        (r"\b(\d+) ([a-z]+) and (?:a|1) half$", r"\1 1/2 \2"),
        (r"\b(?:a )?half (?:an? )?(?=[a-z])", "1/2 "),
        (r"\b3 quarters of an? ", "3/4 "),
        (r"\b(?:a )?quarter (?:of )?(?:an? )?(?=[a-z])", "1/4 "),
        (r"^an? (?=[a-z])", "1 "),
        (r"(?<=[a-z.']) and (?=\d)", " "),
        (r",\s+", " "),
        (r"\s*/\s*", "/"),
        # 1-1/2 lb is one and a half, since no range runs from 1 to 1/2.
        (r"(?<![\d/.,])(\d+)-(?=\d{1,2}/\d)", r"\1 "),
        (r"(?<=\d)-(?=[a-z°])", " "),
    )
)


@dataclass(frozen=True)
class Tidied:
    """Text in the plain spelling, and whether "about" or one of its kin stood in it."""

    text: str
    about: bool


def tidied(typed: str, field: Field) -> Tidied:
    """`typed` in lower case and plain signs, without labels, with "about" taken out."""
    text = _plain_signs(typed)
    if field in _LABELS:
        text = _LABELS[field].sub(" ", text)
    text = _NUMBER_WORD.sub(_in_digits, _one_spaced(text))
    text, hedges = _ABOUT.subn("", text)
    for pattern, plain in _WORDINGS:
        text = pattern.sub(plain, _one_spaced(text))
    return Tidied(_one_spaced(text), hedges > 0)


def _in_digits(words: re.Match[str]) -> str:
    """The digits of "six", "sixty" and "sixty-six"."""
    return str(_NUMBER_WORDS.get(words[1] or "", 0) + _NUMBER_WORDS[words[2]])


def _plain_signs(typed: str) -> str:
    text = "".join(_spelt_fraction(sign) for sign in typed.translate(_SAME))
    text = _POWER.sub(lambda power: "^" + unicodedata.normalize("NFKC", power[0]), text)
    # The prime and the minus only appear once their composed forms are taken apart.
    return unicodedata.normalize("NFKC", text).translate(_SAME).casefold()


def _spelt_fraction(sign: str) -> str:
    if not unicodedata.decomposition(sign).startswith("<fraction>"):
        return sign
    return " " + unicodedata.normalize("NFKC", sign).replace("\N{FRACTION SLASH}", "/")


def _one_spaced(text: str) -> str:
    return " ".join(text.split())
