"""A tree as people read it: `strength wanted × finished mix ÷ stock strength`."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from generator.maths.exact import decimal_text, significant_text
from generator.maths.trees import Binary, Call, Comparison, Name, Negative, Number, Tree
from generator.words import WRITTEN_IN, words

_SIGN = {"+": " + ", "-": " − ", "*": " × ", "/": " ÷ "}
_RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "**": 4}
_COMPARE = {"==": "=", "!=": "≠", "<=": "≤", ">=": "≥"}
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def written(tree: Tree, name: Callable[[str], str] = str, language: str = WRITTEN_IN) -> str:
    """The tree on one line; `name` says what to print for each name (a label or a number)."""
    return _written(tree, name, 0, language)


def _written(tree: Tree, name: Callable[[str], str], outside: int, language: str) -> str:
    match tree:
        case Number(value):
            return _number(value, outside)
        case Name("pi"):
            return "π"
        case Name(own):
            return name(own)
        case Negative(inside):
            return _bracket(f"−{_written(inside, name, 3, language)}", outside > 1)
        case Comparison(op, left, right):
            sides = written(left, name, language), written(right, name, language)
            return f" {_COMPARE.get(op, op)} ".join(sides)
        case Call("sqrt", (inside,)):
            return f"√({written(inside, name, language)})"
        case Call("sum", (inside,)):
            return words(language)["working"]["sum"].format(inside=written(inside, name, language))
        case Call("min" | "max" as function, arguments):
            return _bracket(_extreme(function, arguments, name, language), outside > 0)
        case Call(function, arguments):
            return f"{function}({', '.join(written(a, name, language) for a in arguments)})"
        case Binary("**", left, right):
            return _power(left, right, name, language)
        case Binary(op, left, right):
            rank = _RANK[op]
            text = (
                _written(left, name, rank, language)
                + _SIGN[op]
                + _written(right, name, rank + (op in "-/"), language)
            )
            return _bracket(text, rank < outside)


def _extreme(
    function: str, arguments: tuple[Tree, ...], name: Callable[[str], str], language: str
) -> str:
    said, largest = words(language)["working"], function == "max"
    *most, last = (written(argument, name, language) for argument in arguments)
    if not most:
        return said["largest" if largest else "smallest"].format(inside=last)
    return said["larger" if largest else "smaller"].format(most=", ".join(most), last=last)


def _power(left: Tree, right: Tree, name: Callable[[str], str], language: str) -> str:
    base = _written(left, name, 5, language)
    if " " in base and not base.startswith("("):
        base = f"({base})"
    exponent = _written(right, name, 0, language)
    if exponent.isdecimal():
        return base + exponent.translate(_RAISED)
    if exponent.isalpha():  # a name, which ^ would make look like a code
        return f"({words(language)['working']['power'].format(base=base, exponent=exponent)})"
    plain = isinstance(right, Number | Name) and "/" not in exponent
    return f"{base}^{exponent}" if plain else f"{base}^({exponent})"


def _number(value: Fraction, outside: int) -> str:
    decimal = decimal_text(value, 12)
    if Fraction(decimal.replace(",", "")) == value:
        return decimal
    if value.denominator <= 12:  # a third reads better as 1/3; conversion factors do not
        return _bracket(f"{value.numerator}/{value.denominator}", outside > 1)
    return significant_text(value, 6) if abs(value) < 1 else decimal_text(value, 6)


def _bracket(text: str, needed: bool) -> str:
    return f"({text})" if needed else text
