"""The pages of the flaw history."""

from collections.abc import Iterable, Mapping
from typing import Any

from rich.console import Console
from rich.text import Text

from diagnose.answers import percent
from diagnose.answers.caution import CautionLine
from diagnose.history.keeping import Kept
from diagnose.history.showing import BatchShown, NoteShown, ProbeShown, VersionShown
from diagnose.report.cautions import print_cautions
from diagnose.report.strips import hanging, heading
from diagnose.units.scales import scales_over

_SHOWN_CHANGES = 12


def print_kept(console: Console, kept: Iterable[Kept]) -> None:
    """What became of each file."""
    for one in kept:
        text = {
            "new batch": f"{one.name}: a new batch, {one.key}",
            "new version": f"{one.name}: version {one.number} of {one.key}",
            "already there": f"{one.name}: already there as {one.key}, nothing to do",
        }[one.outcome]
        hanging(console, "-", text, indent=0)


def print_shown(
    console: Console,
    shown: BatchShown,
    remarks: Iterable[str] = (),
    cautions: tuple[CautionLine, ...] = (),
) -> None:
    """One batch in full; cautions come first.

    Args:
        console: where to.
        shown: the batch.
        remarks: how its cases stand, and which instrument was off.
        cautions: what may hurt.
    """
    state = " (withdrawn)" if shown.withdrawn else ""
    console.print(Text(f"{shown.name}{state}", style="bold"), Text(f"[{shown.key}]"))
    print_cautions(console, cautions)
    _print_remarks(console, remarks)
    heading(console, "Versions, oldest first")
    for version in shown.versions:
        _print_version(console, version)
    if shown.entries:
        heading(console, "As written in the current version")
        for entry in shown.entries:
            hanging(console, f"{entry['key']}:", str(entry["typed"]), indent=0)
    if shown.tastings:
        heading(console, "Tasted, as the record says")
        for one in shown.tastings:
            _print_tasting(console, one)
    if shown.probes:
        heading(console, "Probe log")
        for probe in shown.probes:
            text = f"{_probe_figures(probe)}, {probe.usable} usable readings"
            hanging(console, f"{probe.role.replace('_', ' ')}:", f"{text} ({probe.file})")
    if shown.notes:
        heading(console, "Noted since")
        latest = {note.uid: note.number for note in shown.notes}
        for note in shown.notes:
            _print_note(console, note, stands=note.number == latest[note.uid])


def _probe_figures(probe: ProbeShown) -> str:
    numbers = (probe.lowest, probe.mean, probe.highest)
    scales = scales_over(probe.unit, numbers)
    told = " / ".join("-" if number is None else scales.figures(number) for number in numbers)
    unit = "" if scales.other else f" {scales.unit}"
    return f"lowest / mean / highest {told}{unit}"


def _print_remarks(console: Console, remarks: Iterable[str]) -> None:
    for remark in remarks:
        hanging(console, "!", remark, indent=0)


def _print_version(console: Console, version: VersionShown) -> None:
    of = f" from version {version.of_number}" if version.of_number else ""
    why = f": {version.reason}" if version.reason else ""
    hanging(console, f"{version.number}.", f"{version.how}{of}, {version.made_at}{why}", indent=0)
    for change in version.changed[:_SHOWN_CHANGES]:
        text = f"{change.was or 'nothing'} -> {change.now or 'nothing'}"
        hanging(console, f"{change.entry}:", text, indent=4)
    more = len(version.changed) - _SHOWN_CHANGES
    if more > 0:
        hanging(console, "", f"and {more} more entries", indent=4)
    if version.other_probe_log:
        hanging(console, "", "with another probe log", indent=4)


def _print_tasting(console: Console, one: Mapping[str, Any]) -> None:
    who = one["who"] or "someone"
    read = ", ".join([*one["reported"], *(f"no {word}" for word in one["absent"])])
    hanging(console, f"{who}:", f'"{one["words"]}" = {read.replace("_", " ") or "no flavour"}')


def _print_note(console: Console, note: NoteShown, *, stands: bool) -> None:
    parts = [note.at, note.who, f'"{note.typed}"' if note.typed else None, _gist(note)]
    version = f", version {note.number} ({note.how})" if note.number > 1 else ""
    version += "" if stands else ", replaced since"
    words = ", ".join(part for part in parts if part)
    kind = note.kind.replace("_", " ")
    hanging(console, f"{kind}:", f"{words}{version} [{note.uid}]")


def _gist(note: NoteShown) -> str | None:
    body = note.body
    if note.kind == "verdicts":
        cause = str(body["cause"]).replace("_", " ")
        return f"{cause} {body['state']}, {body['confidence']:.0%} sure, from the {body['basis']}"
    if note.kind == "tastings":
        return tasting_gist(body)
    if note.kind == "splits":
        return _split_gist(body)
    if note.kind == "diagnoses":
        return f"by rule base {body['rules_version']}: {body['answer'].get('verdict_text', '')}"
    return str(body.get("name") or body.get("kind") or body.get("method") or "") or None


def _split_gist(body: Mapping[str, Any]) -> str:
    """What was tried, how many could tell, and what it did to the suspect."""
    reading, cause = body.get("reading", {}), str(body["cause"])
    counted = reading.get("panel", {}).get("given", "")
    moved = [row for row in reading.get("ranking", ()) if row["id"] == cause and "before" in row]
    told = [f"from {percent(row['before'])} to {percent(row['after'])}" for row in moved]
    return ", ".join(part for part in (cause.replace("_", " "), counted, *told) if part)


def tasting_gist(body: Mapping[str, Any]) -> str:
    """What a taster's words were read as, and those that were not understood."""
    read = [*body["reported"], *(f"no {word}" for word in body["absent"])]
    parts = [word.replace("_", " ") for word in read]
    unclear = [f"'{word}'" for word in body.get("not_understood", ())]
    if unclear:
        parts.append(f"not understood: {' '.join(unclear)}")
    return ", ".join(parts) or "no flavour"
