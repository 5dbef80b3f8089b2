"""Trees as sympy expressions, and back: no text is ever handed to sympy.

Givens are positive symbols and unknowns real ones. Sums over rows, tangents and steps are opaque:
one symbol stands for the whole, since their insides are given and never solved for.
"""

from __future__ import annotations

import operator
from collections.abc import Sequence
from fractions import Fraction

import sympy

from generator.errors import Refusal
from generator.maths.trees import Binary, Call, Name, Negative, Number, Tree

_SIGNS = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "**": operator.pow,
}


class Symbols:
    """Which symbol stands for which name (`of`), and which for an opaque part of a formula."""

    def __init__(self, unknowns: Sequence[str]) -> None:
        self.of: dict[str, sympy.Symbol] = {
            name: sympy.Symbol(name, real=True) for name in unknowns
        }
        self.opaque: dict[sympy.Symbol, Tree] = {}
        self.order: dict[str, int] = {}

    def symbol(self, name: str) -> sympy.Symbol:
        """The symbol of a name, made when it is first asked for."""
        if name not in self.of:
            self.of[name] = sympy.Symbol(name, positive=True)
        self.order.setdefault(name, len(self.order))
        return self.of[name]

    def hidden(self, tree: Tree) -> sympy.Symbol:
        """The symbol that stands for a part sympy is not to look into."""
        for symbol, kept in self.opaque.items():
            if kept == tree:
                return symbol
        symbol = sympy.Symbol(f"_part{len(self.opaque)}", positive=True)
        self.opaque[symbol] = tree
        return symbol

    def expression(self, tree: Tree) -> sympy.Expr:
        """The tree as a sympy expression. Raises Refusal for a comparison inside it."""
        match tree:
            case Number(value):
                return sympy.Rational(value.numerator, value.denominator)
            case Name("pi"):
                return sympy.pi
            case Name(name):
                return self.symbol(name)
            case Negative(inside):
                return -self.expression(inside)
            case Call("sqrt" | "log" | "exp" as function, (inside,)):
                return getattr(sympy, function)(self.expression(inside))
            case Call():
                return self.hidden(tree)
            case Binary(op, left, right):
                return _SIGNS[op](self.expression(left), self.expression(right))
        raise Refusal("a comparison inside a formula", "write only one == in an equation")

    def tree(self, expression: sympy.Expr) -> Tree:
        """A sympy expression as a tree, its parts in the order the relation names them.

        Raises Refusal for a function that no formula can hold.
        """
        if expression.is_Rational:
            return _number(expression)
        if expression is sympy.pi:
            return Name("pi")
        if expression.is_Symbol:
            return self.opaque.get(expression) or Name(expression.name)
        if expression.is_Add:
            return self.sum_of(expression)
        if expression.is_Mul:
            return self.product_of(expression)
        if expression.is_Pow:
            return self.power_of(expression)
        if isinstance(expression, sympy.log):
            return Call("log", (self.tree(expression.args[0]),))
        if isinstance(expression, sympy.exp):
            return Call("exp", (self.tree(expression.args[0]),))
        raise Refusal(
            f"the solution holds {expression.func.__name__}", "give another number and ask again"
        )

    def rank(self, expression: sympy.Expr) -> tuple[int, int, str]:
        """Plain numbers first, then by the name met first in the relation."""
        places = [self.order.get(s.name, 99) for s in expression.free_symbols]
        return (bool(places), min(places, default=0), str(expression))

    def sum_of(self, expression: sympy.Expr) -> Tree:
        """A sum as a tree, what is taken away at its end."""
        terms = sorted(expression.args, key=lambda t: (t.could_extract_minus_sign(), self.rank(t)))
        total = self.tree(terms[0])
        for term in terms[1:]:
            minus = term.could_extract_minus_sign()
            total = Binary("-" if minus else "+", total, self.tree(-term if minus else term))
        return total

    def product_of(self, expression: sympy.Expr) -> Tree:
        """A product or quotient as a tree."""
        if expression.could_extract_minus_sign():
            return Negative(self.tree(-expression))
        roots = _broken_powers(expression)
        if len(roots) > 1:
            return self.with_one_root(expression, roots)
        top, bottom = expression.as_numer_denom()
        return self.over(self.chain(sympy.Mul.make_args(top)), bottom)

    def with_one_root(self, expression: sympy.Expr, roots: list[sympy.Pow]) -> Tree:
        """Roots of one degree drawn together: √(psi/4000) is exact where √psi/√4000 is not."""
        exponent = abs(roots[0].exp)
        inside = sympy.Mul(*(power.base ** (power.exp / exponent) for power in roots))
        rest = sympy.Mul(*(factor for factor in expression.args if factor not in roots))
        under = self.tree(inside)
        half = exponent == sympy.Rational(1, 2)
        root = Call("sqrt", (under,)) if half else Binary("**", under, self.tree(exponent))
        top, bottom = rest.as_numer_denom()
        product: Tree = root if top == 1 else Binary("*", self.tree(top), root)
        return self.over(product, bottom)

    def over(self, top: Tree, bottom: sympy.Expr) -> Tree:
        """A quotient as a tree; `top` itself over 1."""
        if bottom == 1:
            return top
        return Binary("/", top, self.chain(sympy.Mul.make_args(bottom)))

    def chain(self, factors: Sequence[sympy.Expr]) -> Tree:
        """Factors multiplied one after the other."""
        first, *rest = sorted(factors, key=self.rank)
        product = self.tree(first)
        for factor in rest:
            product = Binary("*", product, self.tree(factor))
        return product

    def power_of(self, expression: sympy.Expr) -> Tree:
        """A power or a root as a tree."""
        base, exponent = expression.args
        if exponent.is_Rational and exponent < 0:
            return Binary("/", Number(Fraction(1)), self.tree(base**-exponent))
        if exponent == sympy.Rational(1, 2):
            return Call("sqrt", (self.tree(base),))
        return Binary("**", self.tree(base), self.tree(exponent))


def _broken_powers(product: sympy.Expr) -> list[sympy.Pow]:
    """The factors that are roots of the degree met first."""
    powers = [f for f in product.args if f.is_Pow and f.exp.is_Rational and not f.exp.is_Integer]
    return [power for power in powers if abs(power.exp) == abs(powers[0].exp)]


def _number(value: sympy.Rational) -> Tree:
    fraction = Fraction(int(value.p), int(value.q))
    return Number(fraction) if fraction >= 0 else Negative(Number(-fraction))
