"""problems.yaml to Problems: draws spelled out with the shop's own numbers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.formula import parse, parse_condition
from generator.maths.trees import Tree
from generator.model.problem import Choices, Problem, Slip
from generator.model.relation import Relation
from generator.model.shop import Shop
from generator.reading.gather import Gathered
from generator.reading.lookups import Table, filled, listed, rig_values
from generator.reading.nodes import Document, Path_
from generator.reading.problem_shapes import ProblemShape, RangeShape, SlipShape
from generator.reading.relations import relation_named
from generator.reading.validate import validated

Row = dict[str, RangeShape | list[str]]
_ROWS = "write it like rows: [{level: [91, 94], hours: [1, 2]}]"
MOST_VALUES = 1000  # of one drawn name


class ProblemReader:
    """Reads the problems of a module against the relations and the shop."""

    def __init__(
        self, gathered: Gathered, table: Table, relations: dict[str, Relation], shop: Shop
    ) -> None:
        self.gathered, self.table, self.relations, self.shop = gathered, table, relations, shop

    def read(self, document: Document, module: str, lessons: Iterable[str]) -> tuple[Problem, ...]:
        """Every problem of the document that could be read."""
        problems: list[Problem] = []
        for name, data in self.gathered.entries(document):
            with self.gathered.at(document, (name,)):
                shape = validated(ProblemShape, document, (name,), data)
                before = len(self.gathered.faults)
                problem = self.problem(document, module, name, shape, list(lessons))
                if len(self.gathered.faults) == before:
                    problems.append(problem)
                    self.gathered.place("problem", name, document, (name,))
        return tuple(problems)

    def problem(
        self, document: Document, module: str, name: str, shape: ProblemShape, lessons: list[str]
    ) -> Problem:
        """One problem, its faults gathered. Raises Refusal for an unknown relation."""
        relation = relation_named(shape.relation, self.relations)
        self.check_lesson(document, name, shape, lessons)
        self.check_names(document, name, shape, relation)
        choices = self.choices(document, name, shape, relation)
        cells = [choice.name for choice in choices if choice.column]
        known = [*relation.quantities, *relation.columns, *cells]
        return Problem(
            id=name,
            module=module,
            lesson=shape.lesson or "",
            relation=relation,
            find=shape.find,
            ask=self.ask(document, name, shape, frozenset(choice.name for choice in choices)),
            level=shape.level,
            choices=choices,
            keep=self.conditions(document, name, shape.keep, known),
            mark=self.mark(document, name, shape),
            rounding=shape.round,
            slips=self.slips(document, name, shape.slips, known),
            must=shape.must,
            word_share=Fraction(1) if shape.find == "verdict" else shape.words,
            language=document.language((name,)),
        )

    def check_lesson(
        self, document: Document, name: str, shape: ProblemShape, lessons: list[str]
    ) -> None:
        """Gather a lesson that is not there; the owner's own sums name none."""
        if lessons and shape.lesson not in lessons:
            what = f'the lesson "{shape.lesson or ""}" is not in this module'
            hint = nearest(shape.lesson or "", lessons)
            self.gathered.add(document, (name, "lesson"), what, hint)
        elif not lessons and (shape.lesson or shape.level != "owner"):
            what = "problems of this file stand in no lesson, so they are the owner's"
            self.gathered.add(document, (name,), what, "write level: owner and no lesson:")

    def check_names(
        self, document: Document, name: str, shape: ProblemShape, relation: Relation
    ) -> None:
        """Gather names that are drawn or asked for and are not the relation's."""
        known = [*relation.quantities, *(["rows"] if relation.columns else [])]
        for drawn in shape.draw:
            if drawn not in known:
                what = f'"{drawn}" is not a quantity of {relation.id}'
                self.gathered.add(document, (name, "draw", drawn), what, nearest(drawn, known))
        asked = [*relation.quantities, *(["verdict"] if relation.verdict else [])]
        if shape.find not in asked:
            what = f'{relation.id} can\'t find "{shape.find}"'
            self.gathered.add(document, (name, "find"), what, nearest(shape.find, asked))
        elif shape.find in shape.draw:
            what = f'"{shape.find}" is both drawn and asked for'
            self.gathered.add(document, (name, "find"), what, "leave it out of draw")

    def ask(self, document: Document, name: str, shape: ProblemShape, drawn: frozenset[str]) -> str:
        """The question, look-ups of the shop filled in, those of the draw kept."""
        with self.gathered.at(document, (name, "ask")):
            return filled(shape.ask, self.table, drawn, document.language((name, "ask")))
        return ""

    def mark(self, document: Document, name: str, shape: ProblemShape) -> Fraction:
        """The smallest mark; 1 once its fault is gathered."""
        if shape.mark <= 0:
            self.gathered.add(document, (name, "mark"), "the mark is not above 0", "write 1/4 or 1")
            return Fraction(1)
        return shape.mark

    def choices(
        self, document: Document, name: str, shape: ProblemShape, relation: Relation
    ) -> tuple[Choices, ...]:
        """The values of every drawn name, and of every cell of drawn rows."""
        read: list[Choices] = []
        for drawn, spec in shape.draw.items():
            with self.gathered.at(document, (name, "draw", drawn)):
                rows, spread = _parted(spec)
                if (drawn == "rows") != bool(rows):
                    raise Refusal("rows and only rows are drawn as a list of {name: values}", _ROWS)
                read += self.cells(rows, relation) if rows else [self.drawn(drawn, spread)]
        return tuple(read)

    def cells(self, rows: list[Row], relation: Relation) -> list[Choices]:
        """A cell for each column of each row, named `column_row`. Raises Refusal."""
        read: list[Choices] = []
        for number, row in enumerate(rows, 1):
            if set(row) != set(relation.columns):
                raise Refusal(f"row {number} should hold {', '.join(relation.columns)}", _ROWS)
            for column, spec in row.items():
                drawn = self.drawn(f"{column}_{number}", spec)
                read.append(replace(drawn, column=column))
        return read

    def drawn(self, name: str, spec: RangeShape | list[str]) -> Choices:
        """The values of one drawn name. Raises Refusal."""
        if isinstance(spec, RangeShape):
            return Choices(name, _spaced(spec))
        if len(spec) == 1 and spec[0].startswith("rig."):
            return Choices(name, self.rig_numbers(spec[0].removeprefix("rig.")), rig=True)
        values: list[Fraction] = []
        for text in spec:
            values += self.setting(text) if text.startswith("shop.") else [exact.number(text)]
        if len(set(values)) != len(values):
            raise Refusal("a value stands here twice", "keep one of the two")
        return Choices(name, tuple(values))

    def rig_numbers(self, wanted: str) -> tuple[Fraction, ...]:
        """That number of every rig, in their order. Raises Refusal."""
        tables = [rig_values(rig) for rig in self.shop.rigs]
        if any(wanted not in table for table in tables):
            what = f'not every rig has "{wanted}"'
            raise Refusal(what, nearest(wanted, set().union(*tables)))
        return tuple(table[wanted].values[0] for table in tables)

    def setting(self, name: str) -> tuple[Fraction, ...]:
        """The values of a shop list, each once. Raises Refusal."""
        return tuple(dict.fromkeys(listed(name, self.table)))

    def conditions(
        self, document: Document, name: str, texts: list[str], known: list[str]
    ) -> tuple[Tree, ...]:
        """The keep rules."""
        read: list[Tree] = []
        for place, text in enumerate(texts):
            with self.gathered.at(document, (name, "keep", place)):
                read.append(parse_condition(text, known))
        return tuple(read)

    def slips(
        self, document: Document, name: str, shapes: dict[str, SlipShape], known: list[str]
    ) -> tuple[Slip, ...]:
        """The slips; each gives a number or a word."""
        read: list[Slip] = []
        for slip, shape in shapes.items():
            where: Path_ = (name, "slips", slip)
            with self.gathered.at(document, where):
                if (shape.gives is None) == (shape.word is None):
                    raise Refusal("a slip gives a number or a word", "write gives: or word:")
                gives = parse(shape.gives, known) if shape.gives else None
                read.append(Slip(slip, shape.name, shape.tell, gives, shape.word or ""))
        return tuple(read)


def _parted(spec: RangeShape | list[str] | list[Row]) -> tuple[list[Row], RangeShape | list[str]]:
    """Rows, or the spread of values of one name; the other is empty."""
    if isinstance(spec, RangeShape):
        return [], spec
    return [x for x in spec if isinstance(x, dict)], [x for x in spec if isinstance(x, str)]


def _spaced(spec: RangeShape) -> tuple[Fraction, ...]:
    if spec.step <= 0 or spec.to < spec.from_:
        raise Refusal("the range runs backwards or stands still", "check from, to and step")
    count = (spec.to - spec.from_) // spec.step + 1
    if count > MOST_VALUES:
        raise Refusal(f"the range holds {count} values", f"{MOST_VALUES} is the limit")
    return tuple(spec.from_ + spec.step * n for n in range(int(count)))
