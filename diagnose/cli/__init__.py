"""The command line: parse, call one function, print."""

import gc
import os
import sys
from io import TextIOWrapper

# What the libraries would set up at each start, and one command makes no use of; whoever sets a
# variable is obeyed. Without threads the sums also come out the same on any number of cores.
_LEFT_OUT = {
    "OPENBLAS_NUM_THREADS": "1",  # threads for matrices larger than ours
    "PYDANTIC_DISABLE_PLUGINS": "__all__",  # looked for in everything that is installed
    "TYPER_USE_RICH": "0",  # frames round the help
}
# A command ends long before the collector could be of use to it, as it mostly builds what lasts.
_COLLECT_AFTER = 200_000


def main() -> None:
    """Run Faultwort; whatever can be mended is said in a sentence, never in a traceback."""
    for variable, value in _LEFT_OUT.items():
        os.environ.setdefault(variable, value)
    gc.set_threshold(_COLLECT_AFTER)

    from diagnose.cli.app import app
    from diagnose.cli.plain_slips import said_on_stderr
    from diagnose.errors import FaultwortError

    if isinstance(sys.stdout, TextIOWrapper):
        # A sign that this terminal cannot show becomes "?"; it is no reason to stop.
        sys.stdout.reconfigure(errors="replace")
    try:
        app(prog_name="faultwort")
    except FaultwortError as error:
        said_on_stderr(f"faultwort: {error}")
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as error:
        found = (error.strerror or "trouble with a file").lower()
        said_on_stderr(f"faultwort: {error.filename}: found {found}; wanted a usable path")
        sys.exit(2)
    except KeyboardInterrupt:
        print("faultwort: stopped", file=sys.stderr)
        sys.exit(130)
    finally:
        # The interpreter looks for rings in all that is left before it goes; the end frees it too.
        gc.freeze()
