"""Backup, restore, export and import as the owner types them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import run


def rigprimer(*words: str) -> Result:
    return CliRunner().invoke(run, list(words), prog_name="rigprimer", catch_exceptions=False)


@pytest.fixture
def folder(tmp_path: Path, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of one module with three people."""
    part_of_starter(tmp_path / "shop" / "curriculum", "debris")
    done = in_shop(tmp_path / "shop", "crew", "add", "Mara", "Juno", "Teo")
    assert done.exit_code == 0, done.output
    return tmp_path / "shop"


def in_shop(folder: Path, *words: str) -> Result:
    return rigprimer("--curriculum", str(folder / "curriculum"), *words)


def said(folder: Path, *words: str) -> str:
    result = in_shop(folder, *words)
    assert result.exit_code == 0, result.output
    return result.output


def refused(folder: Path, *words: str) -> str:
    result = in_shop(folder, *words)
    assert result.exit_code == 1, result.output
    assert " — " in result.output
    return result.output


def test_without_a_file_the_newest_backup_is_named(folder: Path) -> None:
    assert "there is none in backups" in in_shop(folder, "restore").output
    said(folder, "backup")
    (backup,) = (folder / "backups").iterdir()
    result = in_shop(folder, "restore")
    assert result.exit_code == 2
    assert f"the newest here is {backup}" in result.output.replace("\n", " ")


def test_there_and_back(folder: Path, tmp_path: Path) -> None:
    told = said(folder, "backup")
    (backup,) = (folder / "backups").iterdir()
    assert backup.name in told
    assert "To go back to it: rigprimer restore" in told
    head = told.split("head ")[1].split()[0]
    said(folder, "crew", "add", "Pia")
    assert "has 1 event that the backup does not have" in refused(folder, "restore", str(backup))
    told = said(folder, "restore", str(backup), "--yes")
    assert head in told
    assert "What was there before is kept as" in told
    assert "Pia" not in said(folder, "board", "--json")
    assert head in said(folder, "board", "--json")
    told = said(folder, "check", "--head", head)
    assert "is in the chain: printed after event" in told
    assert "The records are whole." in told


def test_a_head_that_is_not_there_is_a_fault(folder: Path) -> None:
    result = in_shop(folder, "check", "--head", "0123-4567-89ab-cdef")
    assert result.exit_code == 1
    assert "the head 0123-4567-89ab-cdef is not in the chain" in result.output
    assert "The records are not whole. Leave the file as it is." in result.output


def test_out_as_text_and_in_again(folder: Path, tmp_path: Path) -> None:
    text, again, records = (tmp_path / name for name in ("a.jsonl", "b.jsonl", "new.sqlite3"))
    said(folder, "export", str(text))
    assert "events already" in refused(folder, "import", str(text))
    other = ("--records", str(records))
    assert "Imported" in said(folder, *other, "import", str(text))
    said(folder, *other, "export", str(again))
    assert again.read_bytes() == text.read_bytes()
    text.write_bytes(text.read_bytes().replace(b"Juno", b"Bram"))
    records.unlink()
    assert "line" in refused(folder, *other, "import", str(text))
    assert not records.exists()


def test_the_second_copy_and_its_warning_on_the_screen(folder: Path, tmp_path: Path) -> None:
    shop = folder / "curriculum" / "shop.yaml"
    text = shop.read_text("utf-8")
    assert 'copy_to: ""' in text
    shop.write_text(text.replace('copy_to: ""', f'copy_to: "{tmp_path / "stick"}"'), "utf-8")
    told = said(folder, "crew", "add", "Pia")
    assert "WARNING: entered, but the second copy was not made" in told
    assert "On the crew: Pia" in told
    (tmp_path / "stick").mkdir()
    assert "WARNING" not in said(folder, "crew", "add", "Bram")
    copy = ("--records", str(tmp_path / "stick" / "records.sqlite3"))
    assert said(folder, *copy, "board", "--json") == said(folder, "board", "--json")


@pytest.mark.parametrize(
    "words",
    [["backup"], ["export", "x.jsonl"], ["restore", "gone.sqlite3"], ["import", "gone.jsonl"]],
    ids=" ".join,
)
def test_without_a_record_or_a_file(words: list[str], folder: Path, tmp_path: Path) -> None:
    nowhere = ("--records", str(tmp_path / "none.sqlite3"))
    refused(folder, *nowhere, *words)
    assert not (tmp_path / "none.sqlite3").exists()
    assert not (folder / "backups").exists()
