"""What a batch is in a few words, and what in its record deserves a second look."""

from diagnose.answers import OddEntry, lower_first
from diagnose.consult.gathering import Consultation
from diagnose.evidence.finding import ClassFinding, NumberFinding
from diagnose.units import Field, Reading, show


def beer_text(consultation: Consultation) -> str:
    """Style and yeast in words."""
    beer = consultation.beer
    parts = [beer.style.name] if beer.style else []
    if beer.yeast:
        assumed = " (assumed)" if beer.yeast_assumed else ""
        parts.append(f"{lower_first(beer.yeast.name)}{assumed}")
    return ", ".join(parts) or "style and yeast not logged"


def package_of(consultation: Consultation) -> str | None:
    """What the beer is packaged in; None where the record does not say."""
    found = consultation.known.findings.get("package")
    return found.value if isinstance(found, ClassFinding) else None


def odd_entries(consultation: Consultation) -> tuple[OddEntry, ...]:
    """Entries of the record and remarks on the probe log that deserve a second look."""
    name = consultation.batch.document.name
    odd = [
        OddEntry(place=f"{name}:{doubt.line}", text=f"{doubt.key}: {doubt.text}")
        for doubt in consultation.batch.doubts
    ]
    odd += _other_than_the_log(consultation)
    if consultation.log is not None:
        notes = [note for note in consultation.log.notes if note.level != "info"]
        odd += [OddEntry(place=consultation.log.name, text=note.text) for note in notes]
    return tuple(odd)


def _other_than_the_log(consultation: Consultation) -> list[OddEntry]:
    """The peak as noted, where it is not what the probe in the beer saw."""
    record, document = consultation.batch.record, consultation.batch.document
    noted, warmest = record.fermentation.peak, consultation.known.findings.get("peak_beer_c")
    if consultation.log is None or record.fermentation.probe_place == "in the room":
        return []
    if not isinstance(noted, Reading) or not isinstance(warmest, NumberFinding):
        return []
    if noted.low <= warmest.band.high and warmest.band.low <= noted.high:
        return []
    text = f"{show(noted, Field.TEMPERATURE)} as the warmest, but the beer {warmest.says}"
    place = f"{document.name}:{document.line(('fermentation', 'peak'))}"
    return [OddEntry(place=place, text=f"fermentation.peak: {text}")]
