"""A diagnosis as a page in a file."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.answers import Diagnosis
    from diagnose.answers.background import Background


def write_diagnosis_page(
    file: Path, diagnosis: "Diagnosis", background: "Background", *, quiet: bool
) -> None:
    """Write the page and, unless quiet, give its cautions, what comes of the batch and its place.

    Raises:
        UnusableInput: something other than an earlier page is there.
    """
    from rich.text import Text

    from diagnose.consult import write_page
    from diagnose.report import terminal
    from diagnose.report.cautions import print_loud
    from diagnose.report.html import OPENING, diagnosis_html

    write_page(file, diagnosis_html(diagnosis, background), OPENING)
    if not quiet:
        console = terminal()
        print_loud(console, diagnosis.cautions)
        console.print()
        console.print(Text(diagnosis.verdict_text, style="bold"))
        # A path is not broken, so that it can be copied.
        print(f"The page is in {file}.")
