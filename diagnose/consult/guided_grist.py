"""A grist as it is said in one breath, to the lines of a record."""

import re
from typing import Final

_PARTS = re.compile(r",\s+|,(?=\D)|\s*;\s*|\s+and\s+|\s+plus\s+|\s*\+\s*", re.IGNORECASE)
_UNIT = r"(?:kg|kilos?|kilograms?|g|gr|grams?|lbs?|pounds?|oz|ounces?)"
_AMOUNT = re.compile(
    rf"\d[\d.,]*(?:\s?/\s?\d+)?\s*{_UNIT}\b\.?(?:\s+\d[\d.,]*\s*(?:oz|ounces?)\b)?", re.IGNORECASE
)
# What brewers call what goes into the mash or the kettle; the first kind with a word in the name
# is taken. Judgement.
_KINDS: Final[tuple[tuple[str, str], ...]] = (
    ("dry extract", r"dme|(?:dry|dried|spray|powdered)(?: malt)? extract|extract powder"),
    (
        "liquid extract",
        r"lme|(?:liquid|syrup)(?: malt)? extract|extract syrup|tin|can|kit",
    ),
    ("roasted malt", r"roast\w*|chocolate|black|patent|carafa"),
    ("smoked malt", r"smoked?|peat\w*|rauch\w*"),
    ("crystal malt", r"crystal|cara\w*|brown malt|amber malt"),
    ("munich malt", r"munich|vienna"),
    ("lager malt", r"pilsn?er|pilsener|pils|lager"),
    ("flaked grain", r"flaked|flakes|oats?|torrified|puffed"),
    ("wheat malt", r"wheat"),
    ("rye malt", r"rye"),
    ("unmalted grain", r"unmalted|raw|rice|maize|corn grits|grits"),
    ("honey", r"honey"),
    (
        "sugar",
        r"sugar|dextrose|glucose|sucrose|candi|treacle|molasses|syrup|lactose|maltodextrin",
    ),
    ("fruit", r"fruit|\w*berr(?:y|ies)|cherr(?:y|ies)|mango|peach\w*|apricots?|puree"),
    ("base malt", r"pale|base|ale malt|mild|two[- ]row|2[- ]row|malt"),
)


def grist_lines(typed: str) -> list[dict[str, str]]:
    """The lines of a grist: name, kind where its name tells, amount where one is given."""
    return [_line(part) for part in _PARTS.split(typed.strip()) if part and part.strip()]


def _line(part: str) -> dict[str, str]:
    amount = _AMOUNT.search(part)
    name = part[: amount.start()] + " " + part[amount.end() :] if amount else part
    name = " ".join(re.sub(r"^\s*of\s+", "", name.replace("(", " ").replace(")", " ")).split())
    kind = next((kind for kind, words in _KINDS if _says(name, words)), "")
    line = {"name": name} if name else {}
    line |= {"kind": kind} if kind else {}
    return line | ({"amount": " ".join(amount[0].split())} if amount else {})


def _says(name: str, words: str) -> bool:
    return re.search(rf"\b(?:{words})\b", name, re.IGNORECASE) is not None


def without_kind(lines: list[dict[str, str]]) -> list[str]:
    """Names in a grist that tell no kind."""
    return [line.get("name") or line.get("amount", "") for line in lines if "kind" not in line]


def is_doubtful_extract(line: dict[str, str]) -> bool:
    """Whether extract is named without saying liquid or dry."""
    return _says(line.get("name", ""), "extract") and not line.get("kind", "").endswith("extract")
