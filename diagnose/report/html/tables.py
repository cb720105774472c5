"""Tables that say what they are: a caption, headed columns, headed rows."""

from collections.abc import Iterable, Sequence
from html import escape


def table(caption: str, head: Iterable[str], rows: Iterable[Sequence[str]]) -> str:
    """A table for narrow places.

    Args:
        caption: what it is, as plain text.
        head: the names of the columns, as plain text.
        rows: their cells as HTML; the first of each heads its row.
    """
    names = "".join(f'<th scope="col">{escape(name)}</th>' for name in head)
    lines = "".join(_row(row) for row in rows)
    return (
        f'<table class="numbers"><caption>{escape(caption)}</caption>'
        f"<thead><tr>{names}</tr></thead><tbody>{lines}</tbody></table>"
    )


def _row(cells: Sequence[str]) -> str:
    first, *others = cells
    rest = "".join(f"<td>{cell}</td>" for cell in others)
    return f'<tr><th scope="row">{first}</th>{rest}</tr>'


def batch_cell(key: str, brewed_on: str | None, style: str = "") -> str:
    """A batch in a cell: its day, then its key, which need not say the day again."""
    day = brewed_on or "no date"
    short = escape(key.removesuffix(f"-{day}"))
    # A narrow column breaks a key behind its hyphens, and a day nowhere.
    parts = [f'<span class="day">{escape(day)}</span>', short]
    told = " ".join(parts)
    return f"{told}<br>{escape(style)}" if style else told
