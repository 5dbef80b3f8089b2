"""The files in sheets/ to Sheets: look-ups filled in, formulas taken from the relations."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

from generator.errors import Refusal, nearest
from generator.model.course import Caution, Source
from generator.model.relation import Relation
from generator.model.sheet import (
    Block,
    Checks,
    Choose,
    Column,
    Cut,
    Field,
    Fields,
    Formulas,
    Reviews,
    Ruled,
    Settled,
    Sheet,
    Sign,
    Warn,
    Words,
    Write,
)
from generator.model.shop import Shop
from generator.reading import sheet_shapes as shapes
from generator.reading.fields import require_id
from generator.reading.gather import Gathered
from generator.reading.lookups import Table, filled
from generator.reading.nodes import Document, Path_
from generator.reading.relations import relation_named
from generator.reading.validate import validated
from generator.solving.arrange import arrange
from generator.solving.explain import formula_line

PER_MARK = 5
"""Millimeters to write on for each underscore of a blank."""
ACROSS = {"upright": 177, "sideways": 246}
"""Millimeters between the margins, on the narrower of letter and A4."""
PER_LETTER, GAP = Fraction(17, 10), 3
"""Millimeters that a letter of a column's head takes, and the air on both sides of it."""
_BLANK = re.compile(r"(__+)")
_USUAL = "______"


class SheetReader:
    """Reads sheets against the shop, the look-ups, the relations and the sources."""

    def __init__(
        self,
        gathered: Gathered,
        table: Table,
        shop: Shop,
        relations: dict[str, Relation],
        sources: dict[str, Source],
    ) -> None:
        self.gathered, self.table, self.shop = gathered, table, shop
        self.relations, self.sources = relations, sources

    def folder(self, folder: Path) -> dict[str, Sheet]:
        """Every sheet of a folder by id, which is the file's name; there may be none."""
        read: dict[str, Sheet] = {}
        for path, document in self.gathered.folder(folder):
            with self.gathered.at(document, ()):
                require_id(path.stem)
                read[path.stem] = self.sheet(document, path.stem)
        return read

    def sheet(self, document: Document, name: str) -> Sheet:
        """The sheet of one document. Raises Faults when its shape is wrong."""
        shape = validated(shapes.SheetShape, document, (), document.data)
        self.gathered.place("sheet", name, document, ())
        self.check_sources(document, ("sources",), shape.sources)
        one = _One(self, document, ACROSS[shape.page])
        return Sheet(
            id=name,
            title=one.text(("title",), shape.title),
            whom=one.text(("for",), shape.for_),
            sideways=shape.page == "sideways",
            blocks=one.blocks(("blocks",), shape.blocks),
            sources=tuple(shape.sources),
        )

    def check_sources(self, document: Document, path: Path_, ids: list[str]) -> None:
        """A fault for each source that sources.yaml does not have."""
        self.gathered.check_sources(document, path, ids, self.sources)

    def formula(self, shape: shapes.FormulaShape) -> str:
        """The formula of a relation in words. Raises Refusal."""
        relation = relation_named(shape.relation, self.relations)
        for name in (shape.find, *shape.from_):
            if name not in relation.quantities:
                hint = nearest(name, relation.quantities)
                raise Refusal(f'{relation.id} has no "{name}"', hint)
        steps = arrange(relation, frozenset(shape.from_), shape.find).steps
        return formula_line(relation, next(step for step in steps if step.name == shape.find))


class _One:
    """One sheet under way."""

    def __init__(self, reader: SheetReader, document: Document, across: int) -> None:
        self.reader, self.document, self.across = reader, document, across

    def text(self, path: Path_, text: str | None) -> str:
        with self.reader.gathered.at(self.document, path):
            return filled(text or "", self.reader.table)
        return text or ""

    def texts(self, path: Path_, texts: list[str]) -> tuple[str, ...]:
        return tuple(self.text((*path, n), text) for n, text in enumerate(texts))

    def blocks(self, path: Path_, read: list[Any]) -> tuple[Block, ...]:
        return tuple(self.block((*path, n), shape) for n, shape in enumerate(read))

    def block(self, path: Path_, shape: Any) -> Block:
        make = _MAKERS[type(shape)]
        return make(self, path, self.text((*path, "title"), shape.title), shape)

    def words(self, path: Path_, title: str, shape: shapes.WordsShape) -> Block:
        return Words(title, self.text((*path, "text"), shape.text))

    def fields(self, path: Path_, title: str, shape: shapes.FieldsShape) -> Block:
        return Fields(title, tuple(map(_field, self.texts((*path, "fields"), shape.fields))))

    def choose(self, path: Path_, title: str, shape: shapes.ChooseShape) -> Block:
        ask = self.text((*path, "choose"), shape.choose)
        return Choose(title, ask, self.options((*path, "of"), shape.of))

    def options(self, path: Path_, of: list[str]) -> tuple[str, ...]:
        shop = self.reader.shop
        lists: dict[str, Callable[[], tuple[str, ...]]] = {
            "shop.rigs": lambda: tuple(rig.name for rig in shop.rigs),
            "shop.washes": lambda: tuple(wash.title for wash in shop.washes),
        }
        if len(of) == 1 and of[0] in lists:
            return lists[of[0]]()
        if len(of) == 1 and of[0].startswith("shop."):
            what = f'"{of[0]}" is no list of the shop'
            self.reader.gathered.add(self.document, path, what, nearest(of[0], lists))
        return self.texts(path, of)

    def checks(self, path: Path_, title: str, shape: shapes.ChecksShape) -> Block:
        return Checks(title, tuple(shape.boxes), self.texts((*path, "checks"), shape.checks))

    def table(self, path: Path_, title: str, shape: shapes.TableShape) -> Block:
        heads = self.texts((*path, "table"), [column.head for column in shape.table])
        for n, column in enumerate(shape.table):
            self.check_size((*path, "table", n), column.width, 20)
        self.check_size((*path, "height"), shape.height, 60)
        self.check_size((*path, "rows"), shape.rows + len(shape.first), 60)
        widths = [column.width for column in shape.table]
        columns = tuple(Column(*each) for each in zip(heads, widths, strict=True))
        self.check_heads((*path, "table"), columns)
        first = self.texts((*path, "first"), shape.first)
        return Ruled(title, columns, shape.rows, shape.height, first)

    def check_size(self, path: Path_, value: Any, most: int) -> None:
        if not 0 < value <= most:
            what = f"{path[-1]}: {value} is not above 0 and at most {most}"
            self.reader.gathered.add(self.document, path, what, "write another number")

    def check_heads(self, path: Path_, columns: Sequence[Column]) -> None:
        """A fault for each column that is narrower than the longest word of its head."""
        whole = sum(column.width for column in columns)
        for n, column in enumerate(columns):
            longest = max(map(len, column.head.split()), default=0)
            if whole > 0 and column.width / whole * self.across < PER_LETTER * longest + GAP:
                what = f'the column "{column.head}" is too narrow for its head'
                next = "give it more width, shorten the word, or use fewer columns"
                self.reader.gathered.add(self.document, (*path, n), what, next)

    def write(self, path: Path_, title: str, shape: shapes.WriteShape) -> Block:
        self.check_size((*path, "lines"), shape.lines, 40)
        return Write(title, self.text((*path, "write"), shape.write), shape.lines)

    def sign(self, path: Path_, title: str, shape: shapes.SignShape) -> Block:
        return Sign(title, self.texts((*path, "sign"), shape.sign))

    def formulas(self, path: Path_, title: str, shape: shapes.FormulasShape) -> Block:
        lines: list[str] = []
        for n, each in enumerate(shape.formulas):
            with self.reader.gathered.at(self.document, (*path, "formulas", n)):
                lines.append(self.reader.formula(each))
        return Formulas(title, tuple(lines))

    def caution(self, path: Path_, title: str, shape: shapes.WarnShape) -> Block:
        said, within = shape.caution, (*path, "caution")
        self.reader.check_sources(self.document, (*within, "sources"), said.sources)
        text = partial(self.text, within)
        happens, do, call = text(said.happens), text(said.do), text(said.call)
        sources = tuple(said.sources)
        caution = Caution(said.id, said.signal, text(said.title), happens, do, call, sources)
        return Warn(title, caution)

    def settled(self, path: Path_, title: str, shape: shapes.SettledShape) -> Block:
        return Settled(title)

    def reviews(self, path: Path_, title: str, shape: shapes.ReviewsShape) -> Block:
        self.check_size((*path, "reviews"), shape.reviews, 366)
        return Reviews(title, shape.reviews)

    def cut(self, path: Path_, title: str, shape: shapes.CutShape) -> Block:
        self.check_size((*path, "across"), shape.across, 4)
        names = self.texts((*path, "cut"), shape.cut)
        return Cut(title, shape.across, names, self.blocks((*path, "blocks"), shape.blocks))


def _field(text: str) -> Field:
    """The words and the blanks of `Tank has ___ gal at ___ %`."""
    pieces = [
        piece.strip() for piece in _BLANK.split(text if _BLANK.search(text) else f"{text} {_USUAL}")
    ]
    return Field(tuple(len(p) * PER_MARK if _BLANK.fullmatch(p) else p for p in pieces if p))


_MAKERS: dict[type, Callable[[_One, Path_, str, Any], Block]] = {
    shapes.WordsShape: _One.words,
    shapes.FieldsShape: _One.fields,
    shapes.ChooseShape: _One.choose,
    shapes.ChecksShape: _One.checks,
    shapes.TableShape: _One.table,
    shapes.WriteShape: _One.write,
    shapes.SignShape: _One.sign,
    shapes.FormulasShape: _One.formulas,
    shapes.WarnShape: _One.caution,
    shapes.SettledShape: _One.settled,
    shapes.ReviewsShape: _One.reviews,
    shapes.CutShape: _One.cut,
}
