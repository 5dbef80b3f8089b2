"""relations/*.yaml to Relations: formulas parsed, dimensions checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.formula import parse_condition, parse_equation
from generator.maths.measure import plain
from generator.maths.trees import Comparison
from generator.maths.units import Unit, convert, parse_unit
from generator.model.reaction import Reaction
from generator.model.relation import Constant, Quantity, Relation, Whole, WordCase, WorkedValue
from generator.reading.gather import Gathered
from generator.reading.lookups import Table, listed, looked_up
from generator.reading.nodes import Document, Path_
from generator.reading.reactions import chemical_constant
from generator.reading.relation_shapes import ConstantShape, QuantityShape, RelationShape, WordShape
from generator.reading.validate import validated


def read_relations(
    document: Document, gathered: Gathered, table: Table, reactions: Mapping[str, Reaction]
) -> dict[str, Relation]:
    """Every relation of one file that could be read; the faults of the others are gathered."""
    relations: dict[str, Relation] = {}
    for name, data in gathered.entries(document):
        with gathered.at(document, (name,)):
            shape = validated(RelationShape, document, (name,), data)
            before = len(gathered.faults)
            relation = _Reader(document, gathered, table, reactions, name, shape).read()
            if relation and len(gathered.faults) == before:
                relations[name] = relation
                gathered.place("relation", name, document, (name,))
    return relations


def relation_named(name: str, relations: Mapping[str, Relation]) -> Relation:
    """The relation of that id. Raises Refusal, offering the nearest."""
    if name not in relations:
        raise Refusal(f'the relation "{name}" is not known', nearest(name, relations))
    return relations[name]


class _Reader:
    """Reads one relation, gathering the faults of all its parts."""

    def __init__(
        self,
        document: Document,
        gathered: Gathered,
        table: Table,
        reactions: Mapping[str, Reaction],
        name: str,
        shape: RelationShape,
    ) -> None:
        self.document, self.gathered = document, gathered
        self.table, self.reactions = table, reactions
        self.name, self.shape = name, shape
        self.units: dict[str, Unit] = {}

    def read(self) -> Relation | None:
        quantities = self.quantities("quantities", self.shape.quantities)
        columns = self.quantities("rows", self.shape.rows)
        constants = self.constants()
        known = [*quantities, *columns, *constants]
        equations = [
            self.formula(("equations", place), text, parse_equation, known)
            for place, text in enumerate(self.shape.equations)
        ]
        unless = self.words("unless", self.shape.unless, known)
        verdict = self.words("verdict", self.shape.verdict, known)
        whole = self.wholes(quantities)
        examples = [self.example(n, e) for n, e in enumerate(self.shape.examples)]
        if not all(equations) or not all(examples):
            return None
        return Relation(
            id=self.name,
            title=self.shape.title,
            quantities=quantities,
            columns=columns,
            constants=constants,
            equations=tuple(e for e in equations if e),
            convention=self.shape.convention,
            unless=unless,
            verdict=verdict,
            whole=whole,
            examples=tuple(e for e in examples if e),
            sources=tuple(self.shape.sources),
            language=self.document.language((self.name,)),
        )

    def at(self, *path: str | int) -> Path_:
        return (self.name, *path)

    def quantities(self, key: str, shapes: dict[str, QuantityShape]) -> dict[str, Quantity]:
        read: dict[str, Quantity] = {}
        for name, shape in shapes.items():
            with self.gathered.at(self.document, self.at(key, name)):
                unit = parse_unit(shape.unit)
                label = name.replace("_", " ") if shape.label == "_" else shape.label
                default = self.default(shape.default, unit) if shape.default else None
                read[name] = Quantity(name, unit, label, shape.from_, shape.to, default)
                self.units[name] = unit
        return read

    def default(self, name: str, unit: Unit) -> Fraction | None:
        """The shop's own number under that name, if it has one. Raises Refusal."""
        found = looked_up(name, self.table)
        return None if found.absent else convert(found.one(name), found.unit, unit)

    def constants(self) -> dict[str, Constant]:
        read: dict[str, Constant] = {}
        for name, stated in self.shape.constants.items():
            with self.gathered.at(self.document, self.at("constants", name)):
                read[name] = self.constant(name, stated)
                self.units[name] = read[name].unit
        return read

    def constant(self, name: str, stated: str | ConstantShape) -> Constant:
        """A number with its unit, written out or from chemistry. Raises Refusal."""
        if isinstance(stated, ConstantShape):
            return chemical_constant(name, stated, self.reactions)
        number, *unit = stated.split(maxsplit=1)
        return Constant(name, exact.number(number), parse_unit(*unit or ["1"]))

    def formula(self, path: Path_, text: str, parse: Any, known: list[str]) -> Comparison | None:
        with self.gathered.at(self.document, self.at(*path)):
            tree: Comparison = parse(text, known)
            plain(tree, self.units)  # raises where dimensions differ
            return tree
        return None

    def words(self, key: str, shapes: list[WordShape], known: list[str]) -> tuple[WordCase, ...]:
        cases: list[WordCase] = []
        for place, shape in enumerate(shapes):
            when = None
            if shape.when is not None:
                when = self.formula((key, place, "when"), shape.when, parse_condition, known)
            cases.append(WordCase(shape.word, shape.tell, when))
        return tuple(cases)

    def wholes(self, quantities: dict[str, Quantity]) -> dict[str, Whole]:
        read: dict[str, Whole] = {}
        for name, shape in self.shape.whole.items():
            with self.gathered.at(self.document, self.at("whole", name)):
                if name not in quantities:
                    raise Refusal(f'"{name}" is not a quantity here', nearest(name, quantities))
                if shape.up.startswith("shop."):
                    sizes = tuple(sorted(self.sizes(shape.up)))
                    read[name] = Whole(sizes=sizes, word=shape.else_)
                else:
                    read[name] = Whole(step=_step(shape.up))
        return read

    def sizes(self, name: str) -> tuple[Fraction, ...]:
        """The sizes of a shop list. Raises Refusal."""
        values = listed(name, self.table)
        if not values or min(values) <= 0:
            raise Refusal(f'"{name}" holds no sizes', "name a list such as shop.ladders")
        return values

    def example(self, place: int, data: dict[str, Any]) -> WorkedValue | None:
        with self.gathered.at(self.document, self.at("examples", place)):
            source = str(data.get("source", ""))
            values: dict[str, Fraction] = {}
            word: tuple[str, str] | None = None
            for key, text in data.items():
                if key in ("source", "rows"):
                    continue
                if key != "verdict" and key not in self.shape.quantities:
                    known = [*self.shape.quantities, "rows", "source", "verdict"]
                    raise Refusal(f'"{key}" is not a quantity here', nearest(key, known))
                if isinstance(text, str) and re.fullmatch(r"[a-z][a-z-]*", text):
                    word = (key, text)
                else:
                    values[key] = _number(text)
            return WorkedValue(values, self.rows(data.get("rows")), word, source)
        return None

    def rows(self, data: Any) -> dict[str, tuple[Fraction, ...]]:
        if data is None:
            return {}
        width = len(self.shape.rows)
        is_table = isinstance(data, list) and all(isinstance(row, list) for row in data)
        if not is_table or any(len(row) != width for row in data):
            raise Refusal(f"each row needs {width} numbers", "write rows: [[6, 5], [2, 15]]")
        table = [[_number(cell) for cell in row] for row in data]
        return {name: tuple(r[n] for r in table) for n, name in enumerate(self.shape.rows)}


def _number(data: Any) -> Fraction:
    """The number at a place where anything may stand. Raises Refusal."""
    return exact.number(data if isinstance(data, str) else "")


def _step(text: str) -> Fraction:
    """The size of a whole unit. Raises Refusal."""
    step = exact.number(text)
    if step <= 0:
        raise Refusal(f'"{text}" is not above 0', "write 1")
    return step
