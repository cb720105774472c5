"""Descriptor cards and small words from the folder they ship in."""

from pathlib import Path

from diagnose.documents import parse_yaml, read_as, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.flavour.card import DescriptorCard
from diagnose.flavour.faults import lexicon_faults
from diagnose.flavour.lexicon import Lexicon, build_lexicon
from diagnose.flavour.words import WordsFile


def load_lexicon(folder: Path) -> Lexicon:
    """The lexicon of a rule base.

    Args:
        folder: the rules folder, with `words.yaml` and `descriptors/<id>.yaml` in it.

    Raises:
        UnusableInput: every fault of every file at once.
    """
    faults: list[Fault] = []
    cards: dict[str, DescriptorCard] = {}
    for path in sorted((folder / "descriptors").glob("*.yaml")):
        try:
            card = _read_card(path)
        except UnusableInput as error:
            faults += error.faults
        else:
            cards[card.id] = card
    if faults:
        raise UnusableInput(*faults)
    words_path = folder / "words.yaml"
    words = read_as(parse_yaml(read_text(words_path), str(words_path)), WordsFile)
    faults += lexicon_faults(cards, words)
    if faults:
        raise UnusableInput(*faults)
    return build_lexicon(cards, words)


def _read_card(path: Path) -> DescriptorCard:
    document = parse_yaml(read_text(path), str(path))
    card = read_as(document, DescriptorCard)
    if card.id != path.stem:
        raise UnusableInput(document.fault(("id",), repr(card.id), f"the file's name, {path.stem}"))
    return card
