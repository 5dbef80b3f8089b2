"""The part of a curriculum that says who is cleared: the shop, and of each module what it asks.

A board is asked for many times a day. No problem, no relation and no lesson need be read for it,
but for the lesson's title.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from generator.errors import Faults, Refusal
from generator.model.course import Curriculum, Lesson, Module
from generator.reading.fields import require_id
from generator.reading.files import module_files, plain_files, shown
from generator.reading.gather import Gathered
from generator.reading.lesson_shapes import ModuleShape
from generator.reading.modules import ModuleReader
from generator.reading.nodes import Document, read_first
from generator.reading.shop import read_shop
from generator.reading.validate import validated
from generator.words import WRITTEN_IN


def read_outline(folder: Path) -> Curriculum:
    """The curriculum in a folder as far as standing and the rules of the record ask for it.

    Whatever is out of the ordinary (a fault, a title that looks something up or is translated) is
    left to a reading of the whole. Raises Faults and Refusal as that does.
    """
    with suppress(_OddError, Faults, Refusal):
        return _outline(folder)
    from generator.reading.curriculum import read_curriculum

    return read_curriculum(folder)


class _OddError(Exception):
    """Only a reading of the whole can say what this is."""


def _outline(folder: Path) -> Curriculum:
    if not (folder / "shop.yaml").is_file():
        raise _OddError
    plain_files(folder)
    gathered = Gathered(folder)
    shop = read_shop(_document(gathered, folder / "shop.yaml"), gathered)
    if shop.language != WRITTEN_IN:
        raise _OddError
    read = [_module(gathered, path) for path in module_files(folder)]
    modules = {module.id: module for module in read}
    wanted = {needed for module in read for needed in module.requires}
    if gathered.faults or not wanted <= modules.keys():
        raise _OddError
    return Curriculum(shop, {}, {}, modules, "")


def _document(gathered: Gathered, path: Path) -> Document:
    document = gathered.document(path)
    if document is None:
        raise _OddError
    return document


def _module(gathered: Gathered, path: Path) -> Module:
    require_id(path.parent.name)
    document = _document(gathered, path)
    shape = validated(ModuleShape, document, (), document.data)
    lessons = [_titled(gathered.root, path.with_name(f"{name}.yaml")) for name in shape.lessons]
    return ModuleReader(gathered, path.parent, document, shape).outline(lessons)


def _titled(root: Path, path: Path) -> Lesson:
    """A lesson of which only the title is known."""
    name, title = read_first(path, shown(path, root))
    if name != "title" or not title.strip() or "{" in title:
        raise _OddError
    return Lesson(path.stem, title.strip(), "", 0, ())
