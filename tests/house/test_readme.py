"""What the README shows can be typed: its record is read, its commands exist."""

import re
from datetime import date
from pathlib import Path
from textwrap import dedent

from typer.main import get_command

from diagnose.batch import logged_entries, read_batch
from diagnose.cli.app import app

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
BLOCKS = [dedent(block) for block in re.findall(r"(?:^    .*\n)+", README, re.MULTILINE)]
# Lines such as "faultwort split choose | plan | check      what it is for".
SHOWN = re.findall(r"^    faultwort (\w+)((?: \w+)?(?: \| \w+)*)", README, re.MULTILINE)


def test_the_record_of_the_readme_is_read_without_a_doubt(tmp_path):
    [record] = [block for block in BLOCKS if block.startswith("batch:")]
    (tmp_path / "batch.yaml").write_text(record, encoding="utf-8")
    batch = read_batch(tmp_path / "batch.yaml", date(2026, 12, 1))
    assert batch.doubts == ()
    assert len(list(logged_entries(batch.record))) > 20


def test_every_command_of_the_readme_exists():
    commands = get_command(app).commands
    assert len(SHOWN) > 15
    for first, others in SHOWN:
        assert first in commands, first
        below = getattr(commands[first], "commands", None)
        for name in re.findall(r"\w+", others if below else ""):
            assert name in below, f"{first} {name}"


def test_every_option_of_the_readme_exists():
    commands = get_command(app).commands
    every = set()
    queue = list(commands.values())
    while queue:
        one = queue.pop()
        queue += getattr(one, "commands", {}).values()
        every |= {option for param in one.params for option in param.opts}
    shown = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", README))
    assert shown and shown <= every | {"--help"}
