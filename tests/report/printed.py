"""Pages as they come out of a console of a given width, sign set and colour."""

from collections.abc import Callable
from io import BytesIO, StringIO, TextIOWrapper

from rich.cells import cell_len
from rich.console import Console

Print = Callable[[Console], None]


def printed(page: Print, columns: int = 80, **console: object) -> str:
    """The page as text."""
    file = StringIO()
    page(Console(file=file, width=columns, highlight=False, **console))  # type: ignore[arg-type]
    return file.getvalue()


def printed_in_ascii(page: Print, columns: int = 80) -> str:
    """The page on a terminal that knows ASCII alone; a letter beyond it comes as a ?."""
    raw = BytesIO()
    file = TextIOWrapper(raw, encoding="ascii", errors="replace")
    page(Console(file=file, width=columns, highlight=False))
    file.flush()
    return raw.getvalue().decode("ascii")


def widest(page: str) -> int:
    return max(map(cell_len, page.splitlines()), default=0)


def words_of(page: str) -> list[str]:
    return page.split()
