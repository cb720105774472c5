"""How long a diagnosis takes in process, against a general-purpose library, and how it grows.

    python -m tests.bench.speed [EVERY] [PAIRS]

A full query is everything about one batch of `cases/` once its record is read: the network of its
beer, its evidence, all posteriors and responsibilities, every piece left out in turn, and what
every question is worth. EVERY takes one case in so many; PAIRS compares on so many, spread over
all. All times are of the processor, since other programs may be running.
"""

import os
import sys

from diagnose.knowledge import load_rules
from diagnose.shipped import shipped
from tests.bench.against import compare, pairs_table
from tests.bench.growth import grow, growth_table
from tests.bench.query import consultations, query_table, quickest

EVERY, PAIRS, ROUNDS, PAIRED_ROUNDS, NETWORKS = 1, 12, 3, 2, 7
TARGET_MS, TARGET_RATIO, TARGET_ALONE = 50.0, 50.0, 5.0


def main(every: int, pairs: int) -> None:
    """Print the three tables."""
    rules = load_rules(shipped("rules"))
    consulted = list(consultations(rules, every))
    timed = [quickest(rules, one, ROUNDS) for one in consulted]
    sys.stdout.write(query_table(timed, TARGET_MS) + "\n")
    some = consulted[:: max(len(consulted) // pairs, 1)][:pairs]
    compared = [compare(rules, one, PAIRED_ROUNDS) for one in some]
    sys.stdout.write(pairs_table(compared, (TARGET_RATIO, TARGET_ALONE)) + "\n")
    sys.stdout.write(growth_table(grow(0, NETWORKS)))


# As every command has it; numpy reads it when it is imported.
ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1"}

if __name__ == "__main__":
    if not ONE_THREAD.items() <= os.environ.items():
        again = [sys.executable, "-m", "tests.bench.speed", *sys.argv[1:]]
        os.execve(sys.executable, again, {**os.environ, **ONE_THREAD})
    told = [int(word) for word in sys.argv[1:3]]
    main(*told, *(EVERY, PAIRS)[len(told) :])
