"""A printed paper tells nothing but the paper: no seed, no answer, nothing hidden in the file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import pikepdf
import pytest

from generator.model.paper import Paper
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.pdf import Printer

SEED = "5eed0f0a9c3d4e5b6a7988f1e2d3c4b5"
HIDING = ("/EmbeddedFiles", "/EF", "/AF", "/OCProperties", "/OCG", "/OC", "/AcroForm", "/Annots",
          "/OpenAction", "/AA", "/JS", "/JavaScript", "/PieceInfo", "/TU", "/Thumb")  # fmt: skip


@pytest.fixture(scope="module")
def paper(samples: ModuleType) -> Paper:
    """A paper with a seed that can be told from everything else."""
    made: Paper = samples.paper("7K3Q-M", "Ada")
    return replace(made, seed=SEED)


@pytest.fixture(scope="module")
def printed(
    samples: ModuleType, printer: Printer, paper: Paper, tmp_path_factory: pytest.TempPathFactory
) -> Path:
    path = tmp_path_factory.mktemp("leaks") / "paper.pdf"
    return printer.write(paper_html(samples.SHOP, [paper], samples.STRIP), path).path


def bare(paper: Paper) -> Paper:
    """The paper as somebody would know it who knows no answer, and with another seed."""
    items = tuple(
        replace(
            item,
            seed=item.seed + 1,
            slips=(),
            working=(),
            order="",
            must=False,
            given={},
            answer=replace(item.answer, value=None, exact=None, low=None, high=None, text=""),
            options=tuple(replace(o, right=False, reason="", slip="") for o in item.options),
        )
        for item in paper.items
    )
    return replace(paper, items=items, seed="0" * 32, curriculum="another")


def test_the_file_is_the_same_whatever_the_seed_and_the_answers(
    samples: ModuleType, printer: Printer, paper: Paper, printed: Path, tmp_path: Path
) -> None:
    html = paper_html(samples.SHOP, [bare(paper)], samples.STRIP)
    assert printer.write(html, tmp_path / "paper.pdf").path.read_bytes() == printed.read_bytes()


def parts(thing: Any) -> Iterator[tuple[set[str], bytes]]:
    """The keys, and the texts and streams, of an object of a PDF and of all directly in it."""
    if isinstance(thing, pikepdf.Stream):
        yield set(), thing.read_bytes()
    if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
        yield set(thing.keys()), b""
        inner = [value for _, value in thing.items() if not getattr(value, "is_indirect", False)]
    elif isinstance(thing, pikepdf.Array):
        inner = [value for value in list(thing) if not getattr(value, "is_indirect", False)]
    else:
        inner = []
        if isinstance(thing, pikepdf.String):
            yield set(), str(thing).encode()
    for value in inner:
        yield from parts(value)


def test_nothing_is_hidden_in_the_file(paper: Paper, printed: Path) -> None:
    with pikepdf.open(printed) as pdf:
        found = [part for each in (*pdf.objects, pdf.trailer) for part in parts(each)]
        said = b"\n".join(text for _, text in found)
        assert len(pdf.attachments) == 0
        assert {str(pdf.docinfo["/Title"])} == {"Quiz paper 7K3Q-M"}
    assert set().union(*(keys for keys, _ in found)).isdisjoint(HIDING)
    number = str(int(SEED, 16))
    for secret in (SEED, SEED[:12], bytes.fromhex(SEED).decode("latin-1"), number):
        assert secret.encode("latin-1") not in said
    told = [text for item in paper.items for text in (item.id, item.order) if len(text) > 4]
    told += [slip.name for item in paper.items for slip in item.slips if slip.name]
    assert told
    assert [text for text in told if text.encode() in said] == []


def test_what_is_told_to_the_blind_holds_no_answer(printed: Path) -> None:
    with pikepdf.open(printed) as pdf:
        dictionaries = [each for each in pdf.objects if isinstance(each, pikepdf.Dictionary)]
        alts = {str(d["/Alt"]) for d in dictionaries if "/Alt" in d}
        assert [d for d in dictionaries if "/ActualText" in d or "/E" in d] == []
    assert {alt.split()[-1] for alt in alts} == {"7K3Q-M"}


def test_the_key_is_another_file(
    samples: ModuleType, paper: Paper, printer: Printer, tmp_path: Path
) -> None:
    html = key_html(samples.SHOP, [paper])
    assert SEED not in html
    assert paper.items[0].answer.text in html
    assert html != paper_html(samples.SHOP, [paper])


@pytest.mark.posix("modes of files")
def test_what_is_printed_is_its_owners_alone(printer: Printer, printed: Path) -> None:
    assert printed.stat().st_mode & 0o777 == 0o600
    again = printed.with_name("again.html")
    again.touch(0o644)
    again.chmod(0o644)
    printer.write("<!DOCTYPE html><title>x</title>", again)
    assert again.stat().st_mode & 0o777 == 0o600
