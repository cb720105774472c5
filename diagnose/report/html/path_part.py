"""The way from the first suspects to the glass, drawn and in words."""

from collections.abc import Sequence
from html import escape

from diagnose.answers import Diagnosis, RankedCause
from diagnose.answers.background import Background
from diagnose.answers.chances import lower_first, percent
from diagnose.report.html.path_picture import path_picture
from diagnose.report.sheets.frame import items, section, text
from diagnose.units.rounding import figure, figures

# So many compounds and words fit side by side on a telephone; the words name them all.
ABREAST = 3
Way = tuple[str, str, str]


def path_words(name: str, ways: Sequence[Way], background: Background) -> list[str]:
    """Every way from a cause to the reported words, a line for each compound."""
    names = background.names
    words: dict[str, list[str]] = {}
    for _, compound, word in dict.fromkeys(ways):
        words.setdefault(compound, []).append(lower_first(names[word]))
    return [
        f"{name} \u2192 {lower_first(names[compound])} \u2192 {', '.join(some)}"
        for compound, some in words.items()
    ]


def path_part(diagnosis: Diagnosis, background: Background) -> str:
    """The ways of the suspect that comes first in each group; empty where there is none."""
    first = _ways_of_the_first(diagnosis)
    figures = [
        _figure(name, ways, background, f"path{number}")
        for number, (name, ways) in enumerate(first.items(), start=1)
    ]
    made = {compound for ways in first.values() for _, compound, _ in ways}
    return section("How it gets into the glass", "".join(figures) + _amounts(diagnosis, made))


def _ways_of_the_first(diagnosis: Diagnosis) -> dict[str, list[Way]]:
    """By name of the suspect; one that comes first in several groups is drawn once."""
    first: list[RankedCause] = [group.causes[0] for group in diagnosis.faults]
    found: dict[str, list[Way]] = {}
    for cause in first:
        if cause.paths:
            found.setdefault(cause.name, []).extend(cause.paths)
    return found


def _figure(name: str, ways: list[Way], background: Background, key: str) -> str:
    compounds = list(dict.fromkeys(compound for _, compound, _ in ways))[:ABREAST]
    near = [way for way in ways if way[1] in compounds]
    words = list(dict.fromkeys(word for _, _, word in near))[:ABREAST]
    drawn = [
        (background.names[compound], background.names[word])
        for _, compound, word in dict.fromkeys(near)
        if word in words
    ]
    picture = path_picture(name, drawn, key)
    lines = items(path_words(name, ways, background))
    caption = f"<p>{escape(name)}, all ways in words:</p>{lines}"
    return f"<figure>{picture}<figcaption>{caption}</figcaption></figure>"


def _amounts(diagnosis: Diagnosis, made: set[str]) -> str:
    """How likely each compound of these ways is there to be noticed."""
    lines = []
    for one in diagnosis.compounds:
        if one.id not in made:
            continue
        line = f"{one.name}: {percent(one.probability)} that it stands above the noticed level"
        if one.predicted:
            _, low, high = figures((one.predicted.mid, one.predicted.low, one.predicted.high))
            line += f"; predicted {low} to {high} {one.predicted.unit}"
        if one.noticed_from:
            line += f"; noticed from about {figure(one.noticed_from.value)} {one.noticed_from.unit}"
        lines.append(line)
    return text("The compounds:") + items(lines) if lines else ""
