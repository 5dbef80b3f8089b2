"""Formula text to a checked tree: an allow-list over Python's own grammar, never run as code.

The text of a formula is data from a file. It is parsed by `ast`, every node is looked up in the
tables below, and what is not listed is refused with a next step. Limits on length, nodes, depth
and exponents keep a hostile text from costing time or memory.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable
from fractions import Fraction

from generator.errors import Refusal, nearest
from generator.maths import exact
from generator.maths.grammar import expression
from generator.maths.trees import Binary, Call, Comparison, Name, Negative, Number, Tree, walk

LONGEST, MOST_NODES, DEEPEST, MOST_EXPONENT = 200, 80, 16, 12
FUNCTIONS = {
    "sqrt": (1, 1),
    "log": (1, 1),
    "exp": (1, 1),
    "tan": (1, 1),
    "abs": (1, 1),
    "round": (1, 1),
    "floor": (1, 1),
    "ceil": (1, 1),
    "sum": (1, 1),
    "min": (1, 4),
    "max": (1, 4),
}
_OPERATORS: dict[type[ast.operator], str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Pow: "**",
}
_COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
}


def parse(text: str, known: Iterable[str] | None = None) -> Tree:
    """The tree of a formula such as `target*total/stock` or `wait < 0`.

    `known` are the names it may use (None: any). Raises Refusal saying what is not allowed.
    """
    body = _body(text)
    tree = _Reader(text).read(body, 0)
    count = sum(1 for _ in walk(tree))
    if count > MOST_NODES:
        raise Refusal(f"the formula has {count} parts", f"split it; {MOST_NODES} is the limit")
    if known is not None:
        _check_names(tree, set(known) | {"pi"})
    return tree


def parse_equation(text: str, known: Iterable[str] | None = None) -> Comparison:
    """An equation `left == right`. Raises Refusal when it is anything else."""
    tree = parse(text, known)
    if not isinstance(tree, Comparison) or tree.op != "==":
        raise Refusal(f'"{text}" is not an equation', "write it as left == right")
    return tree


def parse_condition(text: str, known: Iterable[str] | None = None) -> Comparison:
    """A condition such as `target > stock`. Raises Refusal when nothing is compared."""
    tree = parse(text, known)
    if not isinstance(tree, Comparison):
        raise Refusal(f'"{text}" compares nothing', "write it like target > stock")
    return tree


def _body(text: str) -> ast.expr:
    if not text.strip():
        raise Refusal("the formula is empty", "write a formula")
    if len(text) > LONGEST:
        raise Refusal(f"the formula is {len(text)} characters long", f"{LONGEST} is the limit")
    if not text.isascii():
        raise Refusal(f'"{text}" holds a letter or sign outside a-z', "use * / - and plain letters")
    if "^" in text:
        raise Refusal(f'"{text}" uses ^', "write ** for a power")
    body = expression(text)
    if body is None:
        raise Refusal(f'"{text}" is not a formula', "check brackets and signs")
    return body


class _Reader:
    """Turns checked `ast` nodes of one text into a tree."""

    def __init__(self, text: str) -> None:
        self.text = text.strip()

    def read(self, node: ast.expr, depth: int) -> Tree:
        if depth > DEEPEST:
            raise Refusal("the formula is nested too deep", f"{DEEPEST} levels is the limit")
        match node:
            case ast.Constant():
                return Number(self.literal(node))
            case ast.Name(id=name):
                return Name(name)
            case ast.UnaryOp(op=ast.USub(), operand=inside):
                return Negative(self.read(inside, depth + 1))
            case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPERATORS:
                return self.binary(_OPERATORS[type(op)], left, right, depth + 1)
            case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]):
                return self.call(name, arguments, depth + 1)
            case ast.Compare(left=left, ops=[op], comparators=[right]) if not depth:
                return self.comparison(left, op, right)
        raise Refusal(
            f'"{ast.get_source_segment(self.text, node)}" is not allowed in a formula',
            f"use names, numbers, + - * / **, and {', '.join(FUNCTIONS)}",
        )

    def literal(self, node: ast.Constant) -> Fraction:
        # Read from the text, not from node.value, which may already be a float.
        return exact.number(ast.get_source_segment(self.text, node) or "")

    def binary(self, op: str, left: ast.expr, right: ast.expr, depth: int) -> Tree:
        a, b = self.read(left, depth), self.read(right, depth)
        if op == "**":
            _check_exponent(a, b)
        if op == "/" and b == Number(Fraction(0)):
            raise Refusal(f'"{self.text}" divides by zero', "check the formula")
        return Binary(op, a, b)

    def call(self, name: str, arguments: list[ast.expr], depth: int) -> Tree:
        if name not in FUNCTIONS:
            raise Refusal(f'the function "{name}" is not allowed', nearest(name, FUNCTIONS))
        least, most = FUNCTIONS[name]
        if not least <= len(arguments) <= most:
            raise Refusal(f"{name}() has {len(arguments)} arguments", f"give it {least} to {most}")
        return Call(name, tuple(self.read(argument, depth) for argument in arguments))

    def comparison(self, left: ast.expr, op: ast.cmpop, right: ast.expr) -> Tree:
        if type(op) not in _COMPARISONS:
            raise Refusal(f'"{self.text}" compares in a way not allowed', "use == != < <= > >=")
        return Comparison(_COMPARISONS[type(op)], self.read(left, 1), self.read(right, 1))


def _check_exponent(base: Tree, exponent: Tree) -> None:
    if isinstance(exponent, Number):
        if exponent.value > MOST_EXPONENT:
            raise Refusal(
                f"the power {exponent.value} is too high", f"{MOST_EXPONENT} is the limit"
            )
    elif any(isinstance(part, Binary) and part.op == "**" for part in walk(exponent)):
        raise Refusal("a power of a power of a power", "work it out in two quantities")
    if any(isinstance(part, Binary) and part.op == "**" for part in walk(base)):
        raise Refusal("a power of a power", "multiply the two exponents")


def _check_names(tree: Tree, known: set[str]) -> None:
    for part in walk(tree):
        if isinstance(part, Name) and part.name not in known:
            raise Refusal(f'"{part.name}" is not a quantity here', nearest(part.name, known))
