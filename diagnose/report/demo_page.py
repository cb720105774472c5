"""The demo: a story, a diagnosis, and what to type next."""

from rich.console import Console
from rich.text import Text

from diagnose.answers import Diagnosis
from diagnose.report.diagnosis_page import print_diagnosis
from diagnose.report.strips import hanging, heading


def print_demo(console: Console, story: str, diagnosis: Diagnosis) -> None:
    """Print the demo.

    Args:
        console: where to.
        story: the case in a few sentences.
        diagnosis: its diagnosis.
    """
    console.print(Text("A worked case that ships with Faultwort", style="bold"))
    hanging(console, "", story, indent=0)
    console.print()
    print_diagnosis(console, diagnosis)
    heading(console, "Now try")
    for line in (
        'faultwort diagnose --taste "hint of butter, no sourness"',
        'faultwort taste "medicinal, a bit like sticking plaster"',
        "faultwort explain warm_hold_butter_test",
        "faultwort batch schema        (what a record may hold)",
    ):
        console.print(Text(f"  {line}"))
