"""Amounts in an answer: each number with its unit, and what stands between them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction

from generator.marking.numbers import Written, unreadable
from generator.marking.quiet import COUNTED, QUIET, RATIO
from generator.marking.tokens import Token
from generator.maths.units import Unit, parse_unit, ratio, same_kind

_BEFORE = frozenset("~=:(![*+•")  # no stop or comma, which may belong to a .5
_AFTER = frozenset("~=:()![]*.,;?")
_MINUS = frozenset({"-"})
_JOIN = frozenset({"and", "y", "con", "&", "+", ",", "plus", "mas"})  # 3 gal and 1 qt
_SAME = frozenset({"=", "(", ")", ",", ";", "or", "o", "is", "es"})  # 3 1/4 gal = 13 qt
_RANGE = frozenset({"-", "to", "a", "or", "o", "hasta"})
_AND = frozenset({"and", "y"})
_A = frozenset({"a", "an"})
_FT, _IN, _H, _MIN, _S = (parse_unit(name) for name in ("ft", "in", "h", "min", "s"))
_SMALLER = {_FT: (_IN, 12), _H: (_MIN, 60), _MIN: (_S, 60)}  # 5 ft 2, 1 h 30
_LEAST = frozenset({"min", "mins"})  # before a number that is no time: at least


@dataclass(frozen=True)
class Amount:
    """A number as written and its unit, None where none stands beside it."""

    number: Written
    unit: Unit | None

    def value(self, wanted: Unit) -> Fraction:
        """The amount in `wanted`, which must be of its kind; a bare number is in it already."""
        return self.number.value * self.scale(wanted)

    def scale(self, wanted: Unit) -> Fraction:
        """How many `wanted` one of its unit is."""
        return ratio(self.unit.parts, wanted.parts) if self.unit else Fraction(1)


@dataclass(frozen=True)
class Phrase:
    """An answer as its amounts, with the tokens before, between and after them."""

    amounts: tuple[Amount, ...]
    gaps: tuple[tuple[Token, ...], ...]  # one more than amounts

    @property
    def between(self) -> list[str]:
        """What stands between the amounts."""
        return [token.text for gap in self.gaps[1:-1] for token in gap]

    @property
    def minus(self) -> bool:
        """Whether a minus stands before the first number."""
        return any(token.text in _MINUS for token in self.gaps[0])


def amounts_of(tokens: list[Token], wanted: Unit) -> Phrase:
    """The amounts among `tokens`, a unit before a lone number being its unit ("$300", "gal 3")."""
    amounts: list[Amount] = []
    gaps: list[list[Token]] = [[]]
    rest = list(tokens)
    while rest:
        token = rest.pop(0)
        if token.number:
            amounts.append(Amount(token.number, _unit_after(rest)))
            gaps.append([])
        else:
            gaps[-1].append(token)
    _add_part(amounts, gaps)
    _feet_and_inches(amounts, gaps, wanted)
    if len(amounts) == 1:
        _unit_before(amounts, gaps, wanted)
    return Phrase(tuple(amounts), tuple(map(tuple, gaps)))


def _unit_after(rest: list[Token]) -> Unit | None:
    """The unit at the head of `rest`, taken from it; a hyphen or bracket may stand before it."""
    sign = len(rest) > 1 and rest[0].text in ("-", ")") and rest[1].unit is not None
    if rest and (rest[0].unit or sign):
        del rest[: 1 if sign else 0]
        return rest.pop(0).unit
    return None


def _add_part(amounts: list[Amount], gaps: list[list[Token]]) -> None:
    """Three gallons and a half: the part is one of the unit before it."""
    if len(amounts) < 2 or not amounts[-1].number.part or amounts[-1].unit:
        return
    whole, part, words = amounts[-2], amounts[-1].number, {token.text for token in gaps[-2]}
    if whole.unit and whole.number.step == 1 and words & _AND and words <= _AND | _A:
        number = Written(whole.number.value + part.value, part.step)
        amounts[-2:] = [Amount(number, whole.unit)]
        del gaps[-2]


def _feet_and_inches(amounts: list[Amount], gaps: list[list[Token]], wanted: Unit) -> None:
    """5'6, 5'-6", 5 ft 6 and 1 h 30: the second number is in the next smaller unit.

    Where feet are asked, 5-2 is five feet two: no range runs downwards.
    """
    between = [token.text for token in gaps[1]] if len(amounts) == 2 else ["no"]
    if between not in ([], ["-"]) or amounts[0].number.step != 1:
        return
    large, small = amounts
    downwards = small.number.value < large.number.value and small.number.step == 1
    if between and not large.unit and downwards and wanted.parts == _FT.parts:
        large = Amount(large.number, _FT)
    unit, most = _SMALLER.get(large.unit, (None, 0)) if large.unit else (None, 0)
    if (
        unit
        and same_kind(unit, wanted)
        and small.unit in (None, unit)
        and small.number.value < most
    ):
        amounts[:] = [large, Amount(small.number, unit)]
        gaps[1] = []


def _unit_before(amounts: list[Amount], gaps: list[list[Token]], wanted: Unit) -> None:
    """Give a lone number the unit that stands before it; # there is only the sign of a number."""
    gaps[0] = [token for token in gaps[0] if token.text != "#"]
    units = [token for token in gaps[0] if token.unit]
    own = amounts[0].unit
    if len(units) != 1 or (units[0].text in _LEAST and not same_kind(wanted, _MIN)):
        return
    if own is None or own.parts == (units[0].unit or own).parts:
        amounts[0] = Amount(amounts[0].number, units[0].unit)
        gaps[0].remove(units[0])


def refuse_strays(answer: Phrase, wanted: Unit, ratio: bool = False) -> None:
    """Raise Refusal for a word or sign beside the amounts that may change what is meant."""
    last = answer.amounts[-1]
    counts = wanted.text in ("1", "fraction") or last.unit is not None
    quiet = QUIET | COUNTED if counts else QUIET
    spoken_of = RATIO if ratio else frozenset()
    _refuse(answer.gaps[0], _BEFORE | _MINUS, QUIET | COUNTED | spoken_of)
    _refuse(answer.gaps[-1], _AFTER, quiet | spoken_of)


def _refuse(gap: tuple[Token, ...], signs: Collection[str], quiet: Collection[str]) -> None:
    for token in gap:
        if token.unit:
            raise unreadable(f'"{token.text}" without a number of its own')
        if token.text not in signs and token.text not in quiet:
            raise unreadable(f'"{token.text}" may change the answer')


def total(answer: Phrase, wanted: Unit) -> Fraction | None:
    """Several amounts as one: 3 gal 1 qt is a sum, 3 gal 1 qt = 13 qt is said twice.

    None when they measure another kind of thing. Raises Refusal when they do not fit together.
    """
    units = [amount.unit or wanted for amount in answer.amounts]
    if not all(same_kind(unit, units[0]) for unit in units):
        raise unreadable("amounts of two kinds")
    common = wanted if same_kind(units[0], wanted) else units[0]
    values = {sum((each.value(common) for each in said), Fraction(0)) for said in _said(answer)}
    if len(values) > 1:
        raise unreadable(_two(answer.between))
    return values.pop() if common is wanted else None


def _said(answer: Phrase) -> list[list[Amount]]:
    """The amounts in groups, each of which says the whole: a new one begins at something like =.

    Raises Refusal for two amounts with anything else between them.
    """
    groups = [[answer.amounts[0]]]
    for gap, amount in zip(answer.gaps[1:-1], answer.amounts[1:], strict=True):
        words = {token.text for token in gap}
        if words <= _JOIN and _is_part(amount, groups[-1][-1]):
            groups[-1].append(amount)
        elif words & _SAME and words <= _SAME | QUIET | COUNTED | {"~"}:
            groups.append([amount])
        else:
            raise unreadable(_two(answer.between))
    return groups


def _is_part(small: Amount, large: Amount) -> bool:
    """Whether `small` goes on with `large`: less than one of its unit, after a whole number."""
    if not small.unit or not large.unit or large.number.step < 1:
        return False
    return small.value(large.unit) < 1


def _two(between: list[str]) -> str:
    return "a range" if _RANGE & set(between) else "two different numbers"
