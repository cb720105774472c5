"""What comes from the record itself: the words heard, odd entries, its figures."""

from html import escape

from diagnose.answers import Diagnosis, not_words
from diagnose.answers.background import Background, TastingLine
from diagnose.report.html.quantities import unbroken
from diagnose.report.sheets.frame import items, text
from diagnose.report.strips import near_text


def heard(diagnosis: Diagnosis, background: Background) -> str:
    """The tastings, what they were taken for, and what was not understood."""
    tasted = [_tasting(line) for line in background.tastings if line.words]
    taken = dict.fromkeys(
        f"\u201c{one.said}\u201d: {not_words(one.name) if one.state == 'absent' else one.name}"
        f"{f' ({one.intensity})' if one.intensity else ''}"
        for one in diagnosis.understood
    )
    lost = ", ".join(f"\u201c{said}\u201d" for said in diagnosis.not_understood)
    return (
        (text("Tastings in the record:") + items(tasted) if tasted else "")
        + (text("Taken for:") + items(taken) if taken else text("No flavour words."))
        + (text("In doubt:") + items(diagnosis.doubts) if diagnosis.doubts else "")
        + (text(f"Not understood: {lost}.") if lost else "")
        + (items(map(near_text, diagnosis.near_words)) if diagnosis.near_words else "")
    )


def _tasting(line: TastingLine) -> str:
    who = ", ".join(part for part in (line.when, line.who) if part)
    return f"{who}: \u201c{line.words}\u201d" if who else f"\u201c{line.words}\u201d"


def odd(diagnosis: Diagnosis) -> str:
    """The entries that look odd, each by its line."""
    lines = [f"{_file_alone(one.place)}: {one.text}" for one in diagnosis.odd_entries]
    return text("Used all the same.") + items(lines) if lines else ""


def _file_alone(place: str) -> str:
    """Where the file lies is nobody's business on a page that is passed round."""
    return place.replace("\\", "/").rsplit("/", 1)[-1]


def figures(background: Background) -> str:
    """The record's temperatures and volumes in both systems of units."""
    if not background.figures:
        return ""
    rows = "".join(
        f'<tr><th scope="row">{escape(entry_words(line.key))}</th><td>{escape(line.typed)}</td>'
        f"<td>{escape(unbroken(line.both))}</td></tr>"
        for line in background.figures
    )
    head = "".join(f'<th scope="col">{name}</th>' for name in ("Entry", "As typed", "Read as"))
    return f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"


def entry_words(key: str) -> str:
    """An entry's key in words: "storage 1: at"."""
    words = key.replace("[", " ").replace("]", "").replace("_", " ")
    return words.replace(".", ": ")
