"""The command line: parse, call one function, print."""

import sys
from io import TextIOWrapper


def main() -> None:
    """Run Faultwort; whatever can be mended is said in a sentence, never in a traceback."""
    from diagnose.cli.app import app
    from diagnose.errors import FaultwortError

    if isinstance(sys.stdout, TextIOWrapper):
        # A sign that this terminal cannot show becomes "?"; it is no reason to stop.
        sys.stdout.reconfigure(errors="replace")
    try:
        app(prog_name="faultwort")
    except FaultwortError as error:
        print(f"faultwort: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as error:
        found = (error.strerror or "trouble with a file").lower()
        print(f"faultwort: {error.filename}: found {found}; wanted a usable path", file=sys.stderr)
        sys.exit(2)
    except KeyboardInterrupt:
        print("faultwort: stopped", file=sys.stderr)
        sys.exit(130)
