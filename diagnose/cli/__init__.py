"""The command line: parse, call one function, print."""

import sys


def main() -> None:
    """Run Faultwort; whatever can be mended is said in a sentence, never in a traceback."""
    from diagnose.cli.app import app
    from diagnose.errors import FaultwortError

    try:
        app()
    except FaultwortError as error:
        print(f"faultwort: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except KeyboardInterrupt:
        print("faultwort: stopped", file=sys.stderr)
        sys.exit(130)
