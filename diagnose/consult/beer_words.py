"""What a batch is in a few words, and what in its record deserves a second look."""

from diagnose.answers import OddEntry, lower_first
from diagnose.consult.gathering import Consultation


def beer_text(consultation: Consultation) -> str:
    """Style and yeast in words."""
    beer = consultation.beer
    parts = [beer.style.name] if beer.style else []
    if beer.yeast:
        assumed = " (assumed)" if beer.yeast_assumed else ""
        parts.append(f"{lower_first(beer.yeast.name)}{assumed}")
    return ", ".join(parts) or "style and yeast not logged"


def odd_entries(consultation: Consultation) -> tuple[OddEntry, ...]:
    """Entries of the record and remarks on the probe log that deserve a second look."""
    name = consultation.batch.document.name
    odd = [
        OddEntry(place=f"{name}:{doubt.line}", text=f"{doubt.key}: {doubt.text}")
        for doubt in consultation.batch.doubts
    ]
    if consultation.log is not None:
        notes = [note for note in consultation.log.notes if note.level != "info"]
        odd += [OddEntry(place=consultation.log.name, text=note.text) for note in notes]
    return tuple(odd)
