"""The frame of a sheet: a page that reads on a phone and prints on A4 and Letter alike."""

import re
from collections.abc import Iterable
from html import escape

_COMMAND = re.compile(r"`([^`]+)`")
# No size is set: margins that fit both papers, and breaks between parts rather than in them.
_STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 46rem; color: #000; background: #fff;
  font: 16px/1.45 Georgia, 'Times New Roman', serif; overflow-wrap: break-word; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .4rem; }
h2 { font-size: 1.1rem; margin: 1.3rem 0 .4rem; border-bottom: 1px solid #000; }
p, li { margin: .3rem 0; }
ul, ol { padding-left: 1.4rem; margin: .3rem 0; }
table { border-collapse: collapse; width: 100%; margin: .4rem 0; }
th, td { border: 1px solid #000; padding: .25rem .45rem; text-align: left; vertical-align: top; }
tbody th { font-weight: normal; }
td.mark { width: 3.4rem; }
.small { font-size: .85rem; }
.stop { border: 3px double #000; padding: .3rem .7rem; margin: .6rem 0; }
.division { border: 2px solid #000; padding: .2rem .6rem; font-weight: bold; }
.code { font: bold 1.6rem/1.2 'Courier New', monospace; letter-spacing: .08em; }
.hash { font-family: 'Courier New', monospace; font-size: .8rem;
  overflow-wrap: anywhere; }
@page { margin: 14mm; }
@media print {
  body { padding: 0; max-width: none; font-size: 11pt; }
  h2 { break-after: avoid; }
  li, tr, .stop, .division, .whole { break-inside: avoid; }
  .sheet { break-after: page; }
  .sheet:last-child { break-after: auto; }
}
"""


def opening(generator: str = "") -> str:
    """How a page begins; a generator says which command wrote it."""
    wrote = f'<meta name="generator" content="{escape(generator)}">\n' if generator else ""
    return f'<!DOCTYPE html>\n<html lang="en-GB">\n<head>\n<meta charset="utf-8">\n{wrote}'


def page(title: str, body: str, style: str = "", generator: str = "") -> str:
    """A whole page.

    Args:
        title: plain text.
        body: HTML.
        style: more CSS.
        generator: which command wrote it, where that matters to a later one.
    """
    return (
        f"{opening(generator)}"
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_STYLE}{style}</style>\n</head>\n"
        f"<body>\n{body}\n</body>\n</html>\n"
    )


def sheet(title: str, body: str, style: str = "") -> str:
    """A page that is one sheet, or several: all of it is what the page is about.

    Args:
        title: plain text.
        body: HTML.
        style: more CSS.
    """
    return page(title, f"<main>{body}</main>", style)


def items(lines: Iterable[str], numbered: bool = False) -> str:
    """Plain lines as a list."""
    tag = "ol" if numbered else "ul"
    return f"<{tag}>{''.join(f'<li>{typed_apart(line)}</li>' for line in lines)}</{tag}>"


def section(heading: str, body: str) -> str:
    """A part with a heading; empty where there is nothing in it."""
    return f"<section><h2>{escape(heading)}</h2>{body}</section>" if body else ""


def grid(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """Plain cells as a table."""
    lines = "".join(
        f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in rows
    )
    return f"<table><thead>{headed(*head)}</thead><tbody>{lines}</tbody></table>"


def headed(*names: str) -> str:
    """The row that names the columns of a table."""
    cells = "".join(f'<th scope="col">{escape(name)}</th>' for name in names)
    return f"<tr>{cells}</tr>"


def text(words: str) -> str:
    """Plain words as a paragraph."""
    return f"<p>{typed_apart(words)}</p>"


def typed_apart(words: str) -> str:
    """Plain words as HTML, with what is to be typed set apart."""
    return _COMMAND.sub(r"<code>\1</code>", escape(words))
