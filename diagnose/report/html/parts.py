"""The parts of the page one after the other, with ways to the later ones behind the verdict."""

from collections.abc import Mapping

_NAMED = {
    "suspects": "Suspects and evidence",
    "path": "How it gets into the glass",
    "ask": "Find out next",
    "do": "What to do",
    "log": "The log",
    "figures": "Figures",
}


def with_ways(parts: Mapping[str, str]) -> str:
    """The parts that are not empty, each with its id, and links to the long ones.

    Args:
        parts: HTML by id, in the order of the page; the links come behind "verdict".
    """
    full = {key: part for key, part in parts.items() if part}
    links = "".join(
        f'<li><a href="#{key}">{name}</a></li>' for key, name in _NAMED.items() if key in full
    )
    nav = f'<nav aria-label="On this page"><ul>{links}</ul></nav>'
    return "\n".join(
        f'<div id="{key}">{part}</div>{nav if key == "verdict" else ""}'
        for key, part in full.items()
    )
