"""The shipped lexicon, loaded once for every test of this folder."""

from pathlib import Path

from diagnose.flavour import DescriptorCard, Understanding, load_lexicon, understand

RULES = Path(__file__).parents[2] / "rules"
LEXICON = load_lexicon(RULES)
BRANDS = sorted({word for card in LEXICON.cards.values() for word in card.match_only})


def read(text: str) -> Understanding:
    return understand(text, LEXICON)


def reported(text: str) -> dict[str, str | None]:
    """Descriptor -> intensity of all that is said to be there."""
    return {h.descriptor: h.intensity for h in read(text).heard if h.state == "reported"}


def absent(text: str) -> set[str]:
    return {h.descriptor for h in read(text).heard if h.state == "absent"}


def candidates(text: str, state: str = "reported") -> set[str]:
    """Every descriptor the text may mean, first choice or not."""
    heard = [h for h in read(text).heard if h.state == state]
    return {one for h in heard for one in (h.descriptor, *(a.id for a in h.alternatives))}


def phrases_of(card: DescriptorCard) -> tuple[str, ...]:
    return (*card.phrasings, *card.match_only)
