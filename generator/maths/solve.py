"""Solving equations for one name: the only module that imports sympy.

Trees go in, trees come out; no text is ever handed to sympy. Givens are positive symbols and the
unknown a real one. A broken power of the unknown is first replaced by a symbol of its own, since
a plain solve hangs on exponents such as 1.85 and 4.87. Sums over rows and tangents are opaque:
their insides are given, never solved for.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

import sympy

from generator.errors import Refusal
from generator.maths.tangle import is_too_tangled
from generator.maths.trees import (
    Binary,
    Call,
    Comparison,
    Name,
    Negative,
    Number,
    Tree,
    names,
    walk,
)

Equations = tuple[Comparison, ...]
_ROWS = ("sum", "min", "max")
_STEPPED = ("round", "floor", "ceil", "abs")


@lru_cache(maxsize=1024)
def solve(equations: Equations, unknowns: tuple[str, ...], find: str) -> tuple[Tree, ...]:
    """Every formula for `find` that makes all `equations` true, `unknowns` being not given.

    `find` is one of `unknowns`, and there are as many equations as unknowns.
    Raises Refusal, with the reason, when it can't be isolated.
    """
    if (stated := _stated(equations, find)) is not None:
        return (stated,)
    book = Book(unknowns)
    _check_solvable(equations, unknowns)
    if is_too_tangled(equations, frozenset(unknowns)):
        raise _stuck(find)
    zeros = [book.expression(e.left) - book.expression(e.right) for e in equations]
    if any(_entangled(zero, [book.symbols[name] for name in unknowns]) for zero in zeros):
        raise _stuck(find)
    if len(zeros) == 1:
        solutions = roots_of(zeros[0], book.symbols[find])
    else:
        targets = [book.symbols[name] for name in unknowns]
        found = sympy.solve(zeros, targets, dict=True)
        solutions = [f[book.symbols[find]] for f in found if book.symbols[find] in f]
    possible = [solution for solution in solutions if not solution.is_negative]
    if not possible:
        raise _stuck(find)
    return tuple(book.tree(_tidy(solution)) for solution in possible)


def _stated(equations: Equations, find: str) -> Tree | None:
    """The other side of a lone equation that already says `find == …`, as its author wrote it."""
    if len(equations) > 1:
        return None
    for one, other in (
        (equations[0].left, equations[0].right),
        (equations[0].right, equations[0].left),
    ):
        if one == Name(find) and find not in names(other):
            return other
    return None


def is_identical(left: Tree, right: Tree) -> bool:
    """Whether two formulas are the same for all positive numbers, by symbolic algebra."""
    book = Book(())
    return bool(sympy.simplify(book.expression(left) - book.expression(right)) == 0)


def null_space(rows: Sequence[Sequence[int]]) -> list[tuple[Fraction, ...]]:
    """A basis of everything that a matrix of whole numbers turns into nothing."""
    vectors = sympy.Matrix(rows).nullspace()
    return [tuple(Fraction(int(x.p), int(x.q)) for x in vector) for vector in vectors]


def _check_solvable(equations: Equations, unknowns: Sequence[str]) -> None:
    for equation in equations:
        for part in walk(equation):
            if not isinstance(part, Call) or part.function in ("sqrt", "log", "exp"):
                continue
            inside = names(part) & set(unknowns)
            if inside:
                raise Refusal(
                    f'"{min(inside)}" stands inside {part.function}()',
                    "this relation only runs forward there; give that number and ask for another",
                )


def _entangled(zero: sympy.Expr, unknowns: list[sympy.Symbol]) -> bool:
    """Whether unknowns stand inside a logarithm or an exponent, and outside it as well.

    No formula isolates those, and sympy would search for one without end.
    """
    parts = [p for p in zero.atoms(sympy.exp, sympy.log, sympy.Pow) if _bends(p, unknowns)]
    if not parts:
        return False
    left = zero.subs({part: sympy.Dummy() for part in parts})
    return len(parts) > 1 or left.has(*unknowns)


def _bends(part: sympy.Expr, unknowns: list[sympy.Symbol]) -> bool:
    return bool((part.exp if part.is_Pow else part.args[0]).has(*unknowns))


def _stuck(find: str) -> Refusal:
    return Refusal(
        f'"{find}" can\'t be isolated in this relation',
        "this relation only runs forward there; give that number and ask for another",
    )


def roots_of(zero: sympy.Expr, unknown: sympy.Symbol) -> list[sympy.Expr]:
    """The roots of `zero` in one unknown, a broken power replaced by a symbol first.

    Raises Refusal when the unknown stands under several broken powers.
    """
    exponents = {
        power.exp
        for power in zero.atoms(sympy.Pow)
        if power.base == unknown and power.exp.is_Rational and not power.exp.is_Integer
    }
    if not exponents:
        return list(sympy.solve(zero, unknown))
    if len(exponents) > 1:
        raise _stuck(unknown.name)
    exponent = exponents.pop()
    stand_in = sympy.Symbol("_power", positive=True)
    replaced = zero.subs(unknown**exponent, stand_in)
    if replaced.has(unknown):
        raise _stuck(unknown.name)
    return [root ** (1 / exponent) for root in sympy.solve(replaced, stand_in)]


def _tidy(solution: sympy.Expr) -> sympy.Expr:
    if solution.atoms(sympy.log):
        solution = sympy.expand_log(solution, force=True)
        solution = solution.replace(
            lambda part: part.is_Add and part.has(sympy.log),
            lambda part: sympy.logcombine(part, force=True),
        )
    together = sympy.factor_terms(sympy.cancel(sympy.together(solution)))
    candidates = [solution, together, sympy.factor(solution)]
    if any(not power.exp.is_Integer for power in solution.atoms(sympy.Pow)):
        candidates.append(sympy.powsimp(solution, force=True))
    return min(candidates, key=lambda c: (sympy.count_ops(c), str(c)))


class Book:
    """Which symbol stands for which name, and which for an opaque part: from trees and back."""

    def __init__(self, unknowns: Sequence[str]) -> None:
        self.symbols: dict[str, sympy.Symbol] = {
            name: sympy.Symbol(name, real=True) for name in unknowns
        }
        self.opaque: dict[sympy.Symbol, Tree] = {}
        self.order: dict[str, int] = {}

    def symbol(self, name: str) -> sympy.Symbol:
        """The symbol of a name, made when it is first asked for."""
        if name not in self.symbols:
            self.symbols[name] = sympy.Symbol(name, positive=True)
        self.order.setdefault(name, len(self.order))
        return self.symbols[name]

    def hidden(self, tree: Tree) -> sympy.Symbol:
        """The symbol that stands for a part sympy is not to look into."""
        for symbol, kept in self.opaque.items():
            if kept == tree:
                return symbol
        symbol = sympy.Symbol(f"_part{len(self.opaque)}", positive=True)
        self.opaque[symbol] = tree
        return symbol

    def expression(self, tree: Tree) -> sympy.Expr:
        """The tree as a sympy expression."""
        match tree:
            case Number(value):
                return sympy.Rational(value.numerator, value.denominator)
            case Name("pi"):
                return sympy.pi
            case Name(name):
                return self.symbol(name)
            case Negative(inside):
                return -self.expression(inside)
            case Call("sqrt", (inside,)):
                return sympy.sqrt(self.expression(inside))
            case Call("log", (inside,)):
                return sympy.log(self.expression(inside))
            case Call("exp", (inside,)):
                return sympy.exp(self.expression(inside))
            case Call():
                return self.hidden(tree)
            case Binary(op, left, right):
                return self.binary(op, self.expression(left), self.expression(right))
        raise Refusal("a comparison inside a formula", "write only one == in an equation")

    @staticmethod
    def binary(op: str, a: sympy.Expr, b: sympy.Expr) -> sympy.Expr:
        """Two expressions joined by the sign of a formula."""
        match op:
            case "+":
                return a + b
            case "-":
                return a - b
            case "*":
                return a * b
            case "/":
                return a / b
        return a**b

    def tree(self, expression: sympy.Expr) -> Tree:
        """A sympy expression as a tree, its parts in the order the relation names them."""
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
        return _quotient(self.chain(sympy.Mul.make_args(top)), bottom, self)

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
        return _quotient(product, bottom, self)

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


def _quotient(top: Tree, bottom: sympy.Expr, book: Book) -> Tree:
    if bottom == 1:
        return top
    return Binary("/", top, book.chain(sympy.Mul.make_args(bottom)))


def _number(value: sympy.Rational) -> Tree:
    fraction = Fraction(int(value.p), int(value.q))
    return Number(fraction) if fraction >= 0 else Negative(Number(-fraction))
