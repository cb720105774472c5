"""What every test may ask for: the shipped rule base, loaded once, and the folders of cases."""

import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings

from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped

# Programs that tests start keep their compiled rule base here, not in the user's own cache.
_CACHE = tempfile.TemporaryDirectory(prefix="faultwort-tests-")
os.environ["FAULTWORT_CACHE"] = _CACHE.name
# As every command has it; numpy reads it when it is first imported.
os.environ["OPENBLAS_NUM_THREADS"] = "1"
# A contributor's own saved loggers have no say in a test.
os.environ["FAULTWORT_PROFILES"] = ""

# The same examples on every run, and no law about the speed of the machine.
settings.register_profile("house", derandomize=True, deadline=None)
settings.load_profile("house")


@pytest.fixture(scope="session")
def rules() -> RuleBase:
    return load_rules(shipped("rules"))


@pytest.fixture(scope="session")
def case_folders() -> list[Path]:
    return sorted(card.parent for card in shipped("cases").rglob("case.yaml"))
