"""reactions.yaml to Reactions, each balanced as it is read."""

from __future__ import annotations

from collections.abc import Mapping

from generator.errors import Refusal, nearest
from generator.maths.chemistry import balance, molar_mass
from generator.maths.units import parse_unit
from generator.model.reaction import Reaction
from generator.model.relation import Constant
from generator.reading.gather import Gathered
from generator.reading.nodes import Document
from generator.reading.relation_shapes import ConstantShape, ReactionShape
from generator.reading.validate import validated


def read_reactions(document: Document, gathered: Gathered) -> dict[str, Reaction]:
    """Every reaction that could be read and balanced; the faults of the others are gathered."""
    read: dict[str, Reaction] = {}
    for name, data in gathered.entries(document):
        with gathered.at(document, (name,)):
            shape = validated(ReactionShape, document, (name,), data)
            balanced = balance(shape.from_, shape.to)
            read[name] = Reaction(name, shape.title, balanced, tuple(shape.sources))
    return read


def chemical_constant(
    name: str, shape: ConstantShape, reactions: Mapping[str, Reaction]
) -> Constant:
    """A molar mass in g/mol, or pounds of one thing for each pound of another.

    Raises Refusal when the shape is neither, or names what is not there.
    """
    if shape.molar and not (shape.reaction or shape.get or shape.from_):
        return Constant(name, molar_mass(shape.molar), parse_unit("g/mol"))
    if shape.molar or not (shape.reaction and shape.get and shape.from_):
        raise Refusal("this constant is not whole", _FORMS)
    if shape.reaction not in reactions:
        what = f'the reaction "{shape.reaction}" is not in reactions.yaml'
        raise Refusal(what, nearest(shape.reaction, reactions))
    grams = reactions[shape.reaction].balanced.grams(shape.get, shape.from_)
    return Constant(name, grams, parse_unit("lb/lb"))


_FORMS = "write {molar: Cl2}, or {reaction: acid-and-bleach, get: Cl2, from: NaOCl}"
