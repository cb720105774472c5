"""One module for each part of the process; each function gives one measure or None."""
