"""What each printed part is made from, told before anything but titles is parsed.

A part is what one lot of files makes: a module's booklet, guide or sign-off sheet, a form, the
cards of all rigs, the leaflet. Its key is a digest of the bytes it may depend on.
"""

from __future__ import annotations

import ctypes
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from hashlib import file_digest, sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from generator.reading.files import module_files, plain_files, shown
from generator.reading.nodes import read_first

_PACKAGE = Path(__file__).parents[1]
_LIBRARIES = (  # what decides how a page comes out
    "font-source-sans-pro",
    "fonttools",
    "jinja2",
    "markdown-it-py",
    "pikepdf",
    "pydyf",
    "segno",
    "sympy",
    "tinycss2",
    "weasyprint",
)
_PANGO = ("libpango-1.0.so.0", "libpango-1.0.0.dylib", "libpango-1.0-0.dll")
_MADE_OF_MODULES = {
    "booklets": "booklet-",
    "phone": "phone-",
    "guides": "guide-",
    "sign-offs": "signoff-",
}
_NAME_OTHER_MODULES = ("booklets", "phone")  # those to be passed first


@dataclass(frozen=True)
class Part:
    """Files that are printed together: their kind, the one file or folder that is theirs alone."""

    kind: str
    name: str
    own: str  # within the curriculum; "" when all that is shared is all it reads

    @property
    def id(self) -> str:
        """`booklets/card`."""
        return f"{self.kind}/{self.name}"

    def makes(self, kind: str, product: str) -> bool:
        """Whether a product of that kind and id comes of it."""
        if kind != self.kind:
            return False
        prefix = _MADE_OF_MODULES.get(kind, "")
        return kind in ("cards", "leaflet") or product == f"{prefix}{self.name}"


def parts_of(curriculum: Path) -> Iterator[Part]:
    """Every part, from the names of the files alone; those that take longest first."""
    modules = [path.parent for path in module_files(curriculum)]
    modules.sort(key=lambda folder: -sum(p.stat().st_size for p in folder.glob("*.yaml")))
    for kind in _MADE_OF_MODULES:
        yield from (Part(kind, folder.name, f"modules/{folder.name}/") for folder in modules)
    if modules:
        yield Part("sheets", "safety-figures", "modules/")  # what any lesson states
    for path in sorted(curriculum.glob("sheets/*.yaml")):
        if "." not in path.stem:
            yield Part("sheets", path.stem, f"sheets/{path.stem}.")
    if (curriculum / "rig-card.yaml").is_file():
        yield Part("cards", "rigs", "")
    if (curriculum / "first-day.yaml").is_file():
        yield Part("leaflet", "first-day", "")


class Snapshot:
    """The bytes of a curriculum's files at one moment, as digests. Raises Faults."""

    def __init__(self, curriculum: Path) -> None:
        self.files = {
            path.relative_to(curriculum).as_posix(): _digest(path)
            for path in plain_files(curriculum)
        }
        self.titles = [_title(path, curriculum) for path in module_files(curriculum)]

    def key(self, part: Part) -> str:
        """A digest of all that the part may depend on."""
        total = sha256(f"{part.id} {surroundings()}".encode())
        if part.kind in _NAME_OTHER_MODULES:
            total.update("\0".join(self.titles).encode())
        for name, digest in self.files.items():
            if _is_shared(name) or (part.own and name.startswith(part.own)):
                total.update(f"{name}\0{digest}\0".encode())
        return total.hexdigest()


def _title(path: Path, curriculum: Path) -> str:
    """A text that changes when the module's title does, in any language."""
    name, title = read_first(path, shown(path, curriculum))
    translated = sorted(path.parent.glob("module.*.yaml"))
    said = title if name == "title" else _digest(path)  # a title further down is not looked for
    return " ".join([path.parent.name, said, *map(_digest, translated)])


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return file_digest(file, "sha256").hexdigest()


def _is_shared(name: str) -> bool:
    return not name.startswith(("modules/", "sheets/"))


@lru_cache(maxsize=1)
def surroundings() -> str:
    """A digest of the code, the libraries, Pango and Python."""
    total = sha256(f"{sys.version_info[:3]} {_pango()}".encode())
    for library in _LIBRARIES:
        total.update(f"{library} {_version(library)} ".encode())
    for path in sorted(_PACKAGE.rglob("*")):
        if path.suffix in (".py", ".html", ".css", ".toml"):
            total.update(path.relative_to(_PACKAGE).as_posix().encode() + path.read_bytes())
    return total.hexdigest()


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "none"


def _pango() -> str:
    """The version of Pango, which lays out the text; "none" where it is missing."""
    for name in _PANGO:
        try:
            return str(ctypes.CDLL(name).pango_version())
        except (OSError, AttributeError):
            continue
    return "none"
