"""HTML to PDF: the only module that knows WeasyPrint.

Make one `Printer` a process and keep it: styles are parsed and fonts read once. Work goes into
processes, never threads, as the text layout below WeasyPrint is not safe in them.
"""

from __future__ import annotations

import logging
import os
import platform
import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, redirect_stdout
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname

from generator import __version__
from generator.errors import Refusal
from generator.printing.stylesheet import STYLES, standing_alone, stylesheet
from generator.printing.writing import write_whole
from generator.words.letters import FONTS, lacking

_VARIANT = "pdf/ua-1"
# Any fixed moment will do: without one, the fonts in a PDF carry the time they were cut down.
_FIXED_MOMENT = "1767225600"

_GET_PANGO = {
    "Linux": "sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
    "Darwin": "brew install pango",
    "Windows": "install MSYS2, then run: pacman -S mingw-w64-ucrt-x86_64-pango",
}
_NO_SUBSETTER = (
    "libharfbuzz-subset is missing: printing is slower and the files differ from those of "
    "other machines. To mend it: sudo apt-get install libharfbuzz-subset0"
)

# Complaints we have words of our own for: the missing subsetter, and a character that no font of
# this machine has, which must not keep a person's paper from being printed.
_ONLY_NOTED = ("HarfBuzz-Subset", ".notdef glyph")


@dataclass(frozen=True)
class Printed:
    """The file that was written, and what the person at the screen should know of it."""

    path: Path
    notes: tuple[str, ...] = ()


class Printer:
    """Writes pages to files. `pictures` is the one folder whose images pages may show."""

    def __init__(self, pictures: Path | None = None) -> None:
        os.environ.setdefault("SOURCE_DATE_EPOCH", _FIXED_MOMENT)
        self._folders = [STYLES, FONTS, *([pictures.resolve()] if pictures else [])]
        self._weasyprint = _weasyprint()
        if self._weasyprint:
            self._start()

    @property
    def made_with(self) -> str:
        """The programs that set the pages: where they differ, the bytes of a page may."""
        named = f"Rigprimer {__version__}"
        if not self._weasyprint:
            return named
        from weasyprint.text.ffi import pango

        number = pango.pango_version()
        typeset = f"Pango {number // 10000}.{number // 100 % 100}.{number % 100}"
        return f"{named}, WeasyPrint {self._weasyprint.__version__}, {typeset}"

    def write(self, html: str, path: Path, most: int = 0) -> Printed:
        """Print `html` to `path`, whole or not at all; on so many pages at `most`, where given.

        Without Pango the page is written as HTML beside it instead, and a note says how to get
        PDF. What is meant for a screen (`.html`) is written as it is. Raises Refusal when the page
        has a fault or the file can't be written.
        """
        if path.suffix == ".html":
            write_whole(path, html.encode())
            return Printed(path)
        if not self._weasyprint:
            page = path.with_suffix(".html")
            write_whole(page, standing_alone(html).encode())
            return Printed(page, (_no_pango(page),))
        with _heard() as complaints:
            pdf, pages = self._pdf(html)
        notes = _notes("The page", complaints)
        if most and pages > most:
            what = f"it comes to {pages} pages, {most} at most"
            raise Refusal(what, "use fewer lines, fewer pictures or shorter words")
        write_whole(path, pdf)
        return Printed(path, (*notes, *_strangers(html)))

    def _start(self) -> None:
        from weasyprint.text.fonts import FontConfiguration

        self._fetcher = _own_files_only(self._folders)
        self._fonts = FontConfiguration()
        with _heard() as complaints:
            self._styles = self._weasyprint.CSS(
                string=stylesheet(lambda font: font.as_uri()),
                url_fetcher=self._fetcher,
                font_config=self._fonts,
            )
        _notes("The stylesheet", complaints)

    def _pdf(self, html: str) -> tuple[bytes, int]:
        """The PDF, and the number of its pages."""
        page = self._weasyprint.HTML(
            string=html, base_url=f"{self._folders[-1].as_uri()}/", url_fetcher=self._fetcher
        )
        document = page.render(
            stylesheets=[self._styles], font_config=self._fonts, pdf_variant=_VARIANT
        )
        pdf: bytes = document.write_pdf(pdf_variant=_VARIANT, finisher=_scope_heads)
        return pdf, len(document.pages)


def _weasyprint() -> Any:
    """The library, or None when the Pango it stands on is missing."""
    try:
        # It prints advice for programmers and warns of the subsetter: we have our own words.
        with redirect_stdout(StringIO()), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            import weasyprint
    except OSError:
        return None
    return weasyprint


def _own_files_only(folders: Sequence[Path]) -> Any:
    """A fetcher that never leaves our folders: no network, no surprises."""
    from weasyprint.urls import URLFetcher

    known = [folder.resolve() for folder in folders]

    class OwnFilesOnly(URLFetcher):  # type: ignore[misc]  # the library has no type hints
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:
            """The data at `url`. Raises ValueError when it is not ours."""
            address = urlsplit(url)
            wanted = Path(url2pathname(address.path)).resolve()
            inside = any(wanted.is_relative_to(folder) for folder in known)
            if address.scheme == "data" or (address.scheme == "file" and inside):
                return super().fetch(url, headers)
            raise ValueError("it is outside the pictures folder")

    return OwnFilesOnly()


def _scope_heads(document: Any, pdf: Any) -> None:
    """Say of each head of a table whether it stands for its column or its row (ISO 14289-1 7.5)."""
    tags = {item.reference: item for item in pdf.objects if getattr(item, "get", None)}
    for tag in tags.values():
        if tag.get("S") == "/TH":
            group = tags[tags[tag["P"]]["P"]]
            tag["A"]["Scope"] = "/Column" if group["S"] == "/THead" else "/Row"


@contextmanager
def _heard() -> Iterator[list[str]]:
    """What WeasyPrint complains of meanwhile; left alone, it tells nobody."""
    complaints: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: complaints.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("weasyprint")
    logger.addHandler(handler)
    try:
        yield complaints
    finally:
        logger.removeHandler(handler)


def _notes(what: str, complaints: Sequence[str]) -> tuple[str, ...]:
    """What is only noted is let pass; all else is a Refusal: a page with a hole is no page."""
    faults = [line for line in complaints if not any(word in line for word in _ONLY_NOTED)]
    if faults:
        more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
        raise Refusal(
            f"{what} can't be printed as it stands: {faults[0][:300]}{more}",
            "check the pictures and the text it names",
        )
    return (_NO_SUBSETTER,) if any(_ONLY_NOTED[0] in line for line in complaints) else ()


def _strangers(html: str) -> tuple[str, ...]:
    """A note on characters that would come from some other font, or as a box."""
    odd = lacking(html)
    if not odd:
        return ()
    return (f"not in the font, may print as a box: {' '.join(odd)}. Write it another way.",)


def _no_pango(page: Path) -> str:
    how = _GET_PANGO.get(platform.system(), "install Pango with your package manager")
    return (
        f"Pango is missing, so {page.name} was written instead of a PDF: open it in a browser "
        f"and print it. To get PDF: {how}"
    )
