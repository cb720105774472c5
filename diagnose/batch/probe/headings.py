"""What a column's header says: the part the column plays, and the unit of its numbers."""

import re
from typing import Literal, NamedTuple
from unicodedata import normalize

from diagnose.batch.probe.cells import unit_of

# "temperature" is a temperature of nobody knows what; "other" is known and of no use to measures;
# "device" names the sensor a row came from; "" is a header that says nothing.
Part = Literal[
    "beer_temperature",
    "air_temperature",
    "temperature",
    "set_point",
    "gravity",
    "pressure",
    "battery",
    "comment",
    "device",
    "other",
    "",
]
TEMPERATURE_UNITS = frozenset({"C", "F", "K"})
GRAVITY_UNITS = frozenset({"SG", "P", "Bx", "points"})
PRESSURE_UNITS = frozenset({"bar", "mbar", "psi", "kPa"})


class Heading(NamedTuple):
    """A header as understood; `unit` is "" when it names none, `word` is what told the part."""

    part: Part
    unit: str
    word: str


# Common practice: English words, and the German, French, Spanish and Dutch ones met in exports.
# The first row that fits wins, so the narrow ones stand first.
_WORDS: tuple[tuple[Part, str], ...] = (
    ("battery", r"batter|batt?\b|akku|voltage|\bv ?bat\b|\bvolts?\b|spannung"),
    (
        "other",
        r"rssi|signal|wi ?fi|\blqi\b|angle|inclin|winkel|humid|\brh\b|feuchte|\bco ?2\b|bubble",
    ),
    ("other", r"duty|heater|cooler|heizung|relay|\bpid\b|output|power|interval|\bindex\b|\bid\b"),
    ("other", r"elapsed|uptime|\bage\b|\brate\b|velocity|\bminutes\b|\bhours\b|\bdays\b|\babv\b"),
    ("other", r"attenuation|alcohol|\bog\b|\bfg\b|original|final|\bp ?h\b|\bcount|\brow\b"),
    (
        "comment",
        r"comment|\bnotes?\b|remark|annotation|event|kommentar|bemerkung|notiz|label|message",
    ),
    (
        "set_point",
        r"set ?point|set ?temp|set ?value|\bset\b|setting|target|\bsp\b|\bsoll|consigne|goal",
    ),
    ("pressure", r"pressure|druck|pression|presi[oó]n"),
)
_TEMPERATURE = r"temp|thermo|celsius|fahrenheit|\bdeg [cf]\b"
_GRAVITY = r"gravit|\bs ?\.?g\b|plato|brix|densi[td]|dichte|stammw|extra[ck]t|\bpoints\b"
_AIR = (
    r"\bair\b|ambient|\broom|chamber|fridge|freezer|cabinet|outside|outdoor|external|cellar|garage"
    r"|\bbox\b|\braum|umgebung|\bluft|k[uü]hl|\bambiant|umgevings|enclosure"
)
_BEER = (
    r"beer|wort|ferment|vessel|\btank\b|carboy|bucket|probe|liquid|\bbier|w[uü]rze|bi[eè]re|cerveza"
    r"|mo[uû]t\b|mosto|\bg[aä]r"
)
_DEVICE = re.compile(r"sensor|device|\bprobe\b|channel|entity|ger[aä]t", re.I)
_BRACKETS = re.compile(r"[\[({]\s*([^\[\](){}]+?)\s*[\])}]")
_MARKED = re.compile(r"[°º˚\ufffd]\s?([cfp])\b|\bdeg(?:ree)?s?[ ._]?([cf])\b", re.I)
_CAMEL = re.compile(r"(?<=[a-zäöü])(?=[A-Z])|(?<=[A-Za-z])(?=\d)|(?<=\d)(?=[A-Z][a-z])")


def read_heading(header: str) -> Heading:
    """The part and the unit that a header names, as far as it names them."""
    header = normalize("NFKC", header)
    unit = unit_in(header)
    words = _words_of(header)
    for part, pattern in _WORDS:
        if found := re.search(pattern, words):
            return Heading(part, unit, found.group().strip())
    return _measured(words, unit)


def unit_in(header: str) -> str:
    """The unit in a header: in brackets, behind a degree mark, as the last word, or the whole."""
    for inside in _BRACKETS.findall(header):
        if unit := unit_of(inside):
            return unit
    if found := _MARKED.search(header):
        return (found.group(1) or found.group(2)).upper()
    words = _words_of(header).split()
    if not words:
        return ""
    if len(words[-1]) == 1:
        return _letter(words)
    return unit_of("".join(words)) or next((unit_of(word) for word in words if len(word) > 1), "")


def _letter(words: list[str]) -> str:
    """The unit a last letter stands for: "beer c" is Celsius, "sensor c" the third sensor."""
    counts = len(words) > 1 and _DEVICE.search(words[-2])
    return unit_of(words[-1]) if words[-1] in "cfv" and not counts else ""


def _measured(words: str, unit: str) -> Heading:
    """A temperature, a gravity or a pressure, by its unit and its words."""
    if unit in PRESSURE_UNITS:
        return Heading("pressure", unit, unit)
    if unit in ("V", "mV"):
        return Heading("battery", unit, unit)
    warm = re.search(_TEMPERATURE, words)
    gravity = re.search(_GRAVITY, words)
    hot = warm is not None or unit in TEMPERATURE_UNITS
    if not hot and (gravity or unit in GRAVITY_UNITS):
        return Heading("gravity", unit, gravity.group().strip() if gravity else unit)
    return _temperature(words, unit, warm.group() if warm else unit if hot else "")


def _temperature(words: str, unit: str, hot: str) -> Heading:
    """Whose temperature it is; `hot` is what says that it is one, "" when nothing does."""
    device = _DEVICE.search(words)
    if air := re.search(_AIR, words):
        return Heading("air_temperature", unit, air.group().strip())
    beer = re.search(_BEER, words)
    if beer and (hot or not device):
        return Heading("beer_temperature", unit, beer.group().strip())
    if hot:
        return Heading("temperature", unit, hot)
    return Heading("device", unit, device.group()) if device else Heading("", unit, "")


def _words_of(header: str) -> str:
    """A header as lower-case words: BeerTemp_C becomes "beer temp c"."""
    parted = _CAMEL.sub(" ", header)
    return " ".join(re.sub(r"[_\W]+", " ", parted).lower().split())
