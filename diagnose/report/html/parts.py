"""The parts of a page one after the other, with ways to the later ones."""

from collections.abc import Mapping


def with_ways(parts: Mapping[str, str], named: Mapping[str, str], *, behind: str = "") -> str:
    """The parts that are not empty, each with its id, and links to the long ones.

    Args:
        parts: HTML by id, in the order of the page.
        named: the links in words, by id.
        behind: the part that the links come behind; without one they come first.
    """
    full = {key: part for key, part in parts.items() if part}
    links = "".join(
        f'<li><a href="#{key}">{name}</a></li>' for key, name in named.items() if key in full
    )
    nav = f'<nav aria-label="On this page"><ul>{links}</ul></nav>' if links else ""
    told = "\n".join(
        f'<div id="{key}">{part}</div>{nav if key == behind else ""}' for key, part in full.items()
    )
    return told if behind else f"{nav}{told}"


def capital(words: str) -> str:
    """A sentence's first letter as a capital, but pH as it is."""
    return words if words[1:2].isupper() else words[:1].upper() + words[1:]
