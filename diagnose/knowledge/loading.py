"""The rule base from its folder; every fault of every file is reported at once."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ConfigDict

from diagnose.documents import Document, parse_yaml, read_as, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.flavour import load_lexicon
from diagnose.knowledge.base import Place, RuleBase
from diagnose.knowledge.causes import Cause
from diagnose.knowledge.compounds import Compound
from diagnose.knowledge.findings import Check, Circumstance, Measure
from diagnose.knowledge.lists import Caution, Constant, Retired, Source, Style, Term, YeastFamily

Card = TypeVar("Card", bound=BaseModel)


class _Reader:
    """Reads cards of every kind and keeps the faults it meets."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.faults: list[Fault] = []
        self.places: dict[tuple[str, str], Place] = {}

    def cards(self, kind: str, model: type[Card]) -> Mapping[str, Card]:
        """One card a file, in the folder called `kind`; the file is named after its card."""
        found: dict[str, Card] = {}
        for path in sorted((self.folder / kind).glob("*.yaml")):
            document = self._parsed(path)
            card = self._read(document, model) if document else None
            if document is None or card is None:
                continue
            card_id = str(card.id)  # type: ignore[attr-defined]
            if card_id != path.stem:
                self.faults.append(
                    document.fault(("id",), card_id, f"the file's name, {path.stem}")
                )
            found[card_id] = card
            self.places[kind, card_id] = Place(document)
        return found

    def listed(
        self, kind: str, model: type[Card], files: Iterator[Path] | None = None
    ) -> Mapping[str, Card]:
        """Many cards a file, as a list: `kind`.yaml, or `files`."""
        found: dict[str, Card] = {}
        for path in files or iter([self.folder / f"{kind}.yaml"]):
            document = self._parsed(path)
            if document is None:
                continue
            for index, card in enumerate(self._read_list(document, model)):
                card_id = str(card.id)  # type: ignore[attr-defined]
                if card_id in found:
                    wanted = "each id once"
                    self.faults.append(document.fault((index, "id"), f"{card_id} again", wanted))
                found[card_id] = card
                self.places[kind, card_id] = Place(document, (index,))
        return found

    def _parsed(self, path: Path) -> Document | None:
        name = f"{self.folder.name}/{path.relative_to(self.folder)}"
        try:
            return parse_yaml(read_text(path), name)
        except UnusableInput as error:
            self.faults += error.faults
            return None

    def _read(self, document: Document, model: type[Card]) -> Card | None:
        try:
            return read_as(document, model)
        except UnusableInput as error:
            # A list file is read inside a wrapper, whose key stands in no file.
            self.faults += (replace(f, key=f.key.removeprefix("items")) for f in error.faults)
            return None

    def _read_list(self, document: Document, model: type[Card]) -> list[Card]:
        class Listed(BaseModel):
            model_config = ConfigDict(extra="forbid")
            items: tuple[model, ...]  # type: ignore[valid-type]

        lines = {("items", *path): line for path, line in document.lines.items()}
        wrapped = Document(document.name, {"items": document.data}, lines)
        read = self._read(wrapped, Listed)
        return list(read.items) if read is not None else []


def load_rules(folder: Path) -> RuleBase:
    """Load the rule base in `folder`.

    Raises:
        UnusableInput: every fault of every card, with file and line.
    """
    reader = _Reader(folder)
    cards = {
        "causes": reader.cards("causes", Cause),
        "compounds": reader.cards("compounds", Compound),
        "measures": reader.listed("measures", Measure),
        "circumstances": reader.listed("circumstances", Circumstance),
        "checks": reader.cards("checks", Check),
        "yeasts": reader.listed("yeasts", YeastFamily),
        "styles": reader.listed("styles", Style),
        "cautions": reader.listed("cautions", Caution),
        "sources": reader.cards("sources", Source),
        "constants": reader.listed(
            "constants", Constant, iter(sorted((folder / "constants").glob("*.yaml")))
        ),
        "terms": reader.listed("terms", Term, iter([folder / "coverage_1979.yaml"])),
    }
    retired = reader.listed("retired", Retired)
    try:
        lexicon = load_lexicon(folder)
    except UnusableInput as error:
        reader.faults += error.faults
    if reader.faults:
        raise UnusableInput(*sorted(set(reader.faults)))
    for card_id in lexicon.cards:
        name = f"{folder.name}/descriptors/{card_id}.yaml"
        reader.places["descriptors", card_id] = Place(Document(name, {}, {(): 1}))
    return RuleBase(
        lexicon=lexicon,
        # No card is called by a retired id, so that its place is kept apart.
        retired_places={card_id: reader.places.pop(("retired", card_id)) for card_id in retired},
        retired=retired,
        places=reader.places,
        **cards,  # type: ignore[arg-type]
    )
