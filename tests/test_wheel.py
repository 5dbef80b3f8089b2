"""The wheel: it holds the starter curriculum and works far from the repository."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The contents of the built wheel in a folder."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder)]
    subprocess.run([*build, str(ROOT)], check=True, capture_output=True, cwd=folder)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


def test_the_starter_is_checked_from_the_wheel_alone(unpacked: Path, tmp_path: Path) -> None:
    assert (unpacked / "generator" / "starter" / "shop.yaml").is_file()
    assert not (unpacked / "tests").exists()
    code = "import generator; print(generator.__file__)"
    environment = os.environ | {"PYTHONPATH": str(unpacked)}

    def python(*words: str) -> str:
        done = subprocess.run(
            [sys.executable, *words], cwd=tmp_path, env=environment, capture_output=True, text=True
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    assert Path(python("-c", code).strip()).is_relative_to(unpacked)
    assert "No faults" in python("-m", "generator", "check")
    assert "amount: " in python(
        "-m", "generator", "work", "batch", "stock=12.5", "target=2", "total=50"
    )
    assert list(tmp_path.iterdir()) == []
