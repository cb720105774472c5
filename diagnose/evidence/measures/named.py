"""What a name in the recipe says: its words, held against short lists."""

import re
from collections.abc import Iterable
from typing import Final

from diagnose.batch import NotLogged

# The lists are judgement: what home brewers add besides malt, hops, water and yeast, by the words
# they write. A plural is read as its singular; a list of words is no list of every addition.
_LISTS: Final[dict[str, tuple[str, ...]]] = {
    "spice": (
        *("spice", "coriander", "cinnamon", "clove", "ginger", "pepper", "cardamom", "vanilla"),
        *("peel", "zest", "coffee", "espresso", "tea", "herb", "chilli", "chili", "chile"),
        *("nutmeg", "allspice", "anise", "aniseed", "juniper", "lemongrass", "heather"),
        *("paradise", "peppercorn", "lavender", "hibiscus", "rosemary", "mint"),
    ),
    "wood": ("oak", "wood", "wooden", "stave"),
    "fatty": (
        *("nut", "peanut", "hazelnut", "almond", "walnut", "pecan", "cashew", "pistachio"),
        *("cocoa", "cacao", "chocolate", "coconut", "bacon"),
    ),
    "sweetener": (
        *("lactose", "milk sugar", "maltodextrin", "dextrin powder", "stevia", "sucralose"),
        *("saccharin", "erythritol", "xylitol"),
    ),
    "limed_corn": ("masa", "hominy", "tortilla", "nixtamal"),
    "iron_rich": ("breakfast cereal", "fortified", "molasses", "treacle", "spirulina"),
    "fruit": (
        *("fruit", "juice", "puree", "berry", "raspberry", "strawberry", "blackberry"),
        *("blueberry", "blackcurrant", "elderberry", "cranberry", "cherry", "mango", "peach"),
        *("apricot", "plum", "passionfruit", "pineapple", "apple", "pear", "pumpkin"),
    ),
    "enzyme": ("enzyme", "amylase", "glucoamylase"),
    "sugar": ("sugar", "dextrose", "glucose", "sucrose", "honey", "syrup", "candi"),
    "priming": ("priming", "primer"),
    "finings": (
        *("fining", "moss", "carrageenan", "gelatin", "gelatine", "isinglass", "silica"),
        *("bentonite", "pvpp", "kettle tablet", "whirlpool tablet", "clarifier"),
    ),
    "process": (
        *("nutrient", "yeast", "zinc", "acid", "lactic", "phosphoric", "ascorbic", "salt"),
        *("gypsum", "calcium", "chloride", "sulfate", "sulphate", "metabisulfite"),
        *("metabisulphite", "antifoam", "rice hull", "oat hull", "water"),
    ),
}
SPECIAL: Final = ("spice", "wood", "fatty", "sweetener", "limed_corn", "iron_rich")
# Chocolate malt and coffee malt are malts, and so is malt smoked over oak.
_GRAIN = ("malt", "malted", "wheat", "rye", "barley")
# Alone these mean oak; beside another addition or another stuff they mean that one's pieces.
_WOOD_ALONE = ("chip", "cube", "barrel")
_NOT_OF_WOOD = ("plastic", "pressure", "steel", "stainless", "ice", "potato")
# The word after one of these is not there: "no oak", "without spice".
_DENIALS = ("no", "not", "without", "never", "non")
_WORD = re.compile(r"[^\W\d_]+")


def says_any(text: str | NotLogged, phrases: Iterable[str]) -> bool:
    """Whether a text holds one of these words or phrases, in either number, undenied."""
    if isinstance(text, NotLogged):
        return False
    written = f" {' '.join(words_of(text))} "
    return any(f" {' '.join(words_of(phrase))} " in written for phrase in phrases)


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text in the singular and in lower case, less those it denies."""
    words = [_singular(word) for word in _WORD.findall(text.casefold())]
    return tuple(
        word
        for before, word in zip(["", *words], words, strict=False)
        if word not in _DENIALS and before not in _DENIALS
    )


def _singular(word: str) -> str:
    if len(word) <= 3 or word.endswith("ss") or not word.endswith("s"):
        return word
    if word.endswith("ies"):
        return f"{word[:-3]}y"
    return word[:-2] if word.endswith(("ches", "shes", "xes", "oes")) else word[:-1]


def lists_of(name: str | NotLogged) -> frozenset[str]:
    """The lists a name stands on; none where it names a malt or a grain."""
    if says_any(name, _GRAIN):
        return frozenset()
    found = {key for key, phrases in _LISTS.items() if says_any(name, phrases)}
    if not found and says_any(name, _WOOD_ALONE) and not says_any(name, _NOT_OF_WOOD):
        found = {"wood"}
    # Juniper berries are a spice, cherry wood is wood, milk sugar feeds no yeast.
    if found & {"spice", "wood"}:
        found -= {"fruit"}
    if "sweetener" in found:
        found -= {"sugar"}
    return frozenset(found)
