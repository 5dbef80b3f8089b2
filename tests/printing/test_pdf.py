"""The printed file: tagged, titled, the same bytes every time, whole or not at all."""

from __future__ import annotations

import itertools
import os
import re
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from types import ModuleType
from typing import Any

import pikepdf
import pytest

from generator.errors import Refusal
from generator.printing.pdf import Printer
from generator.printing.stylesheet import standing_alone
from generator.words.letters import letters_of_font

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
PAGE = '<!DOCTYPE html><html lang="en"><head><title>A page</title></head><body>{}</body></html>'
PRODUCTS = ("booklet", "paper", "key", "slip", "slip-passed", "board", "a4")


@pytest.fixture(scope="module")
def printed(
    samples: ModuleType, printer: Printer, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[str], pikepdf.Pdf]:
    """The PDF of a product, printed once and opened."""
    folder, done = tmp_path_factory.mktemp("printed"), dict[str, pikepdf.Pdf]()

    def of(product: str) -> pikepdf.Pdf:
        if product not in done:
            path = printer.write(samples.PRODUCTS[product](), folder / f"{product}.pdf").path
            done[product] = pikepdf.open(path)
        return done[product]

    return of


def tags(pdf: pikepdf.Pdf, kind: str) -> list[Any]:
    """Every structure element of that kind."""
    objects = (item for item in pdf.objects if isinstance(item, pikepdf.Dictionary))
    return [item for item in objects if item.get("/S") == kind and "/P" in item]


@pytest.mark.parametrize("product", PRODUCTS)
def test_is_tagged_titled_and_in_a_language(
    product: str, printed: Callable[[str], pikepdf.Pdf]
) -> None:
    pdf = printed(product)

    assert pdf.Root.MarkInfo.Marked
    assert pdf.Root.Lang == "en"
    assert pdf.Root.ViewerPreferences.DisplayDocTitle
    assert str(pdf.docinfo["/Title"]) != ""
    with pdf.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"


@pytest.mark.parametrize("product", PRODUCTS)
def test_every_picture_has_words_and_every_head_its_scope(
    product: str, printed: Callable[[str], pikepdf.Pdf]
) -> None:
    pdf = printed(product)

    assert [figure for figure in tags(pdf, "/Figure") if not str(figure.get("/Alt", ""))] == []
    assert {str(head.A.Scope) for head in tags(pdf, "/TH")} <= {"/Column", "/Row"}


@pytest.mark.parametrize("product", PRODUCTS)
def test_no_level_of_heading_is_skipped(product: str, samples: ModuleType) -> None:
    levels = [int(level) for level in re.findall(r"<h(\d)", samples.PRODUCTS[product]())]

    assert levels[0] == 1
    assert [b for a, b in itertools.pairwise(levels) if b > a + 1] == []


def test_lessons_are_bookmarks(printed: Callable[[str], pikepdf.Pdf]) -> None:
    with printed("booklet").open_outline() as outline:
        (root,) = outline.root

    assert root.title == "Mixing"
    assert [child.title for child in root.children] == [
        "What is inside",
        "Ratios and fractions",
        "A batch in a tank",
        "The log and the label",
        "Answers",
        "Sign-off sheet: Mixing",
        "Sources",
    ]


@pytest.mark.parametrize(
    ("product", "size"), [("paper", (612, 792)), ("key", (792, 612)), ("a4", (595, 842))]
)
def test_page_size(
    product: str, size: tuple[int, int], printed: Callable[[str], pikepdf.Pdf]
) -> None:
    assert {(round(p.MediaBox[2]), round(p.MediaBox[3])) for p in printed(product).pages} == {size}


def test_all_letters_come_from_the_one_font(printed: Callable[[str], pikepdf.Pdf]) -> None:
    names = {
        str(item.BaseFont)
        for product in PRODUCTS
        for item in printed(product).objects
        if isinstance(item, pikepdf.Dictionary) and "/BaseFont" in item
    }

    assert [name for name in names if "Source-Sans-Pro" not in name] == []


@pytest.mark.parametrize("product", PRODUCTS)
def test_every_printed_character_is_in_the_font(product: str, samples: ModuleType) -> None:
    assert set(samples.PRODUCTS[product]()) - {"\n"} <= letters_of_font()


def test_every_character_of_the_curriculum_is_in_the_font() -> None:
    texts = [path.read_text("utf-8") for path in (ROOT / "curriculum").rglob("*.yaml")]

    assert texts
    assert set("".join(texts)) - {"\n"} - letters_of_font() == set()


def test_a_character_the_font_lacks_is_noted(printer: Printer, tmp_path: Path) -> None:
    printed = printer.write(PAGE.format("<p>\u6f22</p>"), tmp_path / "page.pdf")

    assert printed.notes == ("not in the font, may print as a box: \u6f22. Write it another way.",)


SCRIPT = """
import sys
from hashlib import sha256
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from generator.printing.pdf import Printer
spec = spec_from_file_location("printing_samples", sys.argv[1])
samples = sys.modules[spec.name] = module_from_spec(spec)
spec.loader.exec_module(samples)
printer = Printer()
for name in sys.argv[3:]:
    done = printer.write(samples.PRODUCTS[name](), Path(sys.argv[2]) / f"{name}.pdf")
    print(done.path.name, sha256(done.path.read_bytes()).hexdigest(), *done.notes)
"""

NO_LIBRARY = """
import cffi
true = cffi.FFI.dlopen
def dlopen(self, name, flags=0):
    if {!r} in name:
        raise OSError("not on this machine")
    return true(self, name, flags)
cffi.FFI.dlopen = dlopen
"""


def run(script: str, folder: Path, *products: str, seed: str = "1") -> list[str]:
    """The lines a fresh process prints; no warning and nothing else may come out of it."""
    folder.mkdir()
    done = subprocess.run(
        [sys.executable, "-c", script, str(HERE / "samples.py"), str(folder), *products],
        cwd=ROOT,
        env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == ""
    return done.stdout.splitlines()


def test_same_bytes_in_two_processes_and_from_a_used_printer(
    samples: ModuleType, printer: Printer, tmp_path: Path
) -> None:
    products = ("slip", "board", "a4")
    first = run(SCRIPT, tmp_path / "one", *products, seed="1")
    second = run(SCRIPT, tmp_path / "two", *products, seed="2")
    here = [
        printer.write(samples.PRODUCTS[name](), tmp_path / f"{name}.pdf").path for name in products
    ]

    assert first == second
    assert first == [f"{path.name} {sha256(path.read_bytes()).hexdigest()}" for path in here]


def test_without_pango_the_page_is_written_ready_for_a_browser(tmp_path: Path) -> None:
    (line,) = run(NO_LIBRARY.format("pango") + SCRIPT, tmp_path / "out", "slip")

    assert line.startswith("slip.html ")
    assert "Pango is missing, so slip.html was written instead of a PDF" in line
    assert "To get PDF: " in line
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["slip.html"]


def test_a_page_standing_alone_fetches_nothing(samples: ModuleType) -> None:
    page = standing_alone(samples.PRODUCTS["slip"]())

    assert page.count("@font-face") == page.count("url(data:font/ttf;base64,") == 5
    assert ".slip" in page
    assert ".running, .head { display: none }" in page  # a browser would print them on the page
    assert "file:" not in page
    assert "http" not in page
    assert page.index(".slip") < page.index("@page { size: letter; }")  # the page's own word last


def test_without_the_subsetter_one_line_says_so(tmp_path: Path) -> None:
    (line,) = run(NO_LIBRARY.format("harfbuzz-subset") + SCRIPT, tmp_path / "out", "slip")

    assert line.startswith("slip.pdf ")
    assert "libharfbuzz-subset is missing: printing is slower" in line


@pytest.mark.parametrize(
    ("body", "complaint"),
    [
        ('<img src="http://127.0.0.1:9/x.png" alt="x">', "outside the pictures folder"),
        ('<img src="file:///etc/hostname" alt="x">', "outside the pictures folder"),
        ('<img src="{}/other.png" alt="x">', "outside the pictures folder"),
        ('<p style="colour: red">x</p>', "colour"),
        ('<img src="missing.png" alt="x">', "missing.png"),
        (f'<img src="{"data:image/svg+xml,<svg/>"}">', "alt"),
    ],
)
def test_a_fault_on_the_page_is_refused_and_nothing_is_written(
    body: str, complaint: str, tmp_path: Path
) -> None:
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    printer = Printer(pictures)

    with pytest.raises(Refusal, match=complaint):
        printer.write(PAGE.format(body.format(tmp_path)), tmp_path / "page.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["pictures"]


def test_pictures_may_come_from_the_pictures_folder(tmp_path: Path) -> None:
    square = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9"/></svg>'
    (tmp_path / "square.svg").write_text(square)

    printed = Printer(tmp_path).write(
        PAGE.format('<img src="square.svg" alt="A square">'), tmp_path / "page.pdf"
    )

    assert printed.path.read_bytes().startswith(b"%PDF-1.7")


def test_a_folder_that_cannot_be_written_is_a_refusal(printer: Printer, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")

    with pytest.raises(Refusal, match=r"page\.pdf can't be written") as refusal:
        printer.write(PAGE.format("x"), tmp_path / "file" / "page.pdf")
    assert "--out" in refusal.value.next


def test_an_older_file_stays_whole_when_the_new_one_fails(printer: Printer, tmp_path: Path) -> None:
    path = printer.write(PAGE.format("old"), tmp_path / "page.pdf").path
    before = path.read_bytes()

    with pytest.raises(Refusal):
        printer.write(PAGE.format('<img src="gone.png" alt="x">'), path)

    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_missing_folders_are_made(printer: Printer, tmp_path: Path) -> None:
    assert printer.write(PAGE.format("x"), tmp_path / "a" / "b" / "page.pdf").path.exists()
