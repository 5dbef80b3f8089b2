"""The program as it is started."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from generator import __version__

ROOT = Path(__file__).parent.parent


def started(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """The program run with `folder` looked through before all libraries."""
    environment = os.environ | {"PYTHONPATH": f"{folder}{os.pathsep}{ROOT}"}
    command = [sys.executable, "-m", "generator", *words]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def test_says_its_version(tmp_path: Path) -> None:
    done = started(tmp_path, "--version")
    assert (done.returncode, done.stdout) == (0, f"rigprimer, version {__version__}\n")


@pytest.mark.usefixtures("ctrl_c_is_heard")
def test_ctrl_c_while_it_is_loaded_is_answered_in_words(tmp_path: Path) -> None:
    (tmp_path / "click.py").write_text(
        "import signal, time\nsignal.raise_signal(signal.SIGINT)\ntime.sleep(60)\n"
    )
    done = started(tmp_path, "board")
    assert (done.returncode, done.stderr) == (1, "Stopped.\n")
