"""What can be told of a page without a browser: its parts, its names, its colours."""

import re
from html.parser import HTMLParser
from itertools import pairwise

VOID = {"meta", "br", "hr", "img", "link", "input"}
Attributes = dict[str, str | None]


class Parts(HTMLParser):
    """Every tag in order, with its attributes and the tags that stand around it."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.seen: list[tuple[str, Attributes, tuple[str, ...]]] = []
        self.standing: list[str] = []
        self.texts: dict[str, str] = {}
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self.standing.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs), tuple(self.standing)))

    def handle_endtag(self, tag: str) -> None:
        if self.standing and self.standing[-1] == tag:
            self.standing.pop()

    def handle_data(self, data: str) -> None:
        # A drawing has a title of its own.
        if self.standing and "svg" not in self.standing:
            tag = self.standing[-1]
            self.texts[tag] = self.texts.get(tag, "") + data

    def all(self, tag: str) -> list[Attributes]:
        return [attributes for name, attributes, _ in self.seen if name == tag]


def faults_of(html: str) -> list[str]:
    """What a reader who listens to the page, or reads it on a phone, would stumble over."""
    parts = Parts(html)
    return [
        *_page(parts),
        *_headings(parts),
        *_landmarks(parts),
        *_tables(html, parts),
        *_pictures(parts),
        *_outside(html, parts),
    ]


def _page(parts: Parts) -> list[str]:
    views = [one for one in parts.all("meta") if one.get("name") == "viewport"]
    content = (views[0].get("content") or "") if views else ""
    faults = {
        "no language": parts.all("html") != [{"lang": "en-GB"}],
        "no title": not parts.texts.get("title", "").strip(),
        "no viewport": "width=device-width" not in content,
        "no zoom": "maximum-scale" in content or "user-scalable" in content,
    }
    return [what for what, is_so in faults.items() if is_so]


def _headings(parts: Parts) -> list[str]:
    levels = [int(tag[1]) for tag, _, _ in parts.seen if re.fullmatch("h[1-6]", tag)]
    first = [] if levels[:1] == [1] and levels.count(1) == 1 else ["not one h1, first of all"]
    jumps = [f"h{a} then h{b}" for a, b in pairwise(levels) if b > a + 1]
    return first + jumps


def _landmarks(parts: Parts) -> list[str]:
    if len(parts.all("main")) != 1:
        return ["not one main"]
    around = {"main", "header", "footer", "nav"}
    telling = ("h1", "h2", "h3", "p", "table", "svg", "ul", "ol")
    return [
        f"{tag} outside the landmarks"
        for tag, _, outer in parts.seen
        if tag in telling and not around & set(outer)
    ]


def _tables(html: str, parts: Parts) -> list[str]:
    heads = parts.all("th")
    faults = [f"th without scope: {one}" for one in heads if one.get("scope") not in _SCOPES]
    faults += ["an empty head"] * len(re.findall(r"<th[^>]*>\s*</th>", html))
    tables = re.findall(r"<table.*?</table>", html, re.DOTALL)
    return faults + ["a table without heads" for one in tables if "<th" not in one]


_SCOPES = ("col", "row")


def _pictures(parts: Parts) -> list[str]:
    ids = [str(one["id"]) for _, one, _ in parts.seen if "id" in one]
    faults = [f"id twice: {one}" for one in sorted(set(ids)) if ids.count(one) > 1]
    for picture in parts.all("svg"):
        if picture.get("aria-hidden") == "true":
            continue
        named = (picture.get("aria-labelledby") or "").split()
        if picture.get("role") != "img" or not named or not set(named) <= set(ids):
            faults.append(f"a picture without a name: {picture}")
    return faults


def _outside(html: str, parts: Parts) -> list[str]:
    faults = [tag for tag in ("script", "link", "iframe", "object", "img") if parts.all(tag)]
    faults += ["@import"] * html.count("@import")
    for _, attributes, _ in parts.seen:
        for name, value in attributes.items():
            if name.startswith("on"):
                faults.append(f"{name} runs")
            if name in ("src", "href", "xlink:href") and not (value or "").startswith("#"):
                faults.append(f"{name}={value}")
    return faults


def luminance(colour: str) -> float:
    """Relative luminance of "#rgb" or "#rrggbb".

    Source: WCAG 2.2, definition of relative luminance (the threshold is that of sRGB).
    """
    digits = colour.removeprefix("#")
    wide = "".join(2 * one for one in digits) if len(digits) == 3 else digits
    shares = [int(wide[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21. Source: WCAG 2.2, definition of contrast ratio."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


_COLOUR = r"(#[0-9a-fA-F]{3,6})\b"


def words_and_grounds(html: str) -> tuple[set[str], set[str]]:
    """The colours words are written in, and those that may lie behind them."""
    style = "".join(re.findall(r"<style>(.*?)</style>", html, re.DOTALL))
    words = set(re.findall(rf"(?<![-\w])color: {_COLOUR}", style))
    words |= set(re.findall(rf"text {{[^}}]*fill: {_COLOUR}", style))
    grounds = set(re.findall(rf"background: {_COLOUR}", style))
    named = re.findall(r'<svg[^>]*role="img".*?</svg>', html, re.DOTALL)
    grounds |= {one for svg in named for one in re.findall(rf'<rect[^>]*fill="{_COLOUR}"', svg)}
    return words, grounds


def strokes(html: str) -> set[str]:
    """The colours of the lines of drawings."""
    return set(re.findall(rf'stroke="{_COLOUR}"', html))
