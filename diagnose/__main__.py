"""`python -m diagnose` is `faultwort`."""

from diagnose.cli import main

if __name__ == "__main__":
    main()
