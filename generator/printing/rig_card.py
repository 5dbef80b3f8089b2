"""The rig card: one rig's mixes on the front, what to do in an emergency on the back.

Every amount is worked by the relations `batch`, `soap` and `water-first`, then rounded to the side
that can't be too strong: stock and soap down, water down, made up to the fill mark at the end. A
setting of the head comes from that rig's own draw-down by `three-way`, never above the wash.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from hashlib import blake2b

from generator.errors import Refusal
from generator.maths.amounts import mixed_text, number_text
from generator.maths.exact import down, up
from generator.model.course import Source
from generator.model.handout import COLUMNS, CardWords
from generator.model.relation import Relation
from generator.model.shop import Head, HeadSetting, Rig, Shop, Wash
from generator.printing.environment import render
from generator.printing.pictograms import pictogram
from generator.solving.answer import work

USUAL_MARKS = tuple(map(Fraction, (10, 25, 50)))
"""Gallons; for a rig whose fill marks nobody has written into shop.yaml."""

WORN = ("goggles", "shield", "gloves", "apron", "boots")
FRONT, DENSE = 12, Fraction(29, 2)
"""Lines that a front has room for, and set closer; a line of the head takes half the height."""
Relations = Mapping[str, Relation]


@dataclass(frozen=True)
class Cell:
    """Gallons of stock to measure, and of water that go in first, to line A."""

    stock: Fraction
    water: Fraction


@dataclass(frozen=True)
class Row:
    """A wash at a fill mark; a cell is None where that stock can't make it."""

    wash: Wash
    mark: Fraction  # gal
    soap: Fraction  # fl oz, whole
    line_b: Fraction  # gal, where water and stock reach
    cells: tuple[Cell | None, ...]  # one for each column


@dataclass(frozen=True)
class HeadCell:
    """Marks to set the head to, and what it puts on the wall."""

    marks: str
    strength: Fraction  # %, as worked


@dataclass(frozen=True)
class Lot:
    """What a card says of one wash; `head` has a cell for each column, or none at all."""

    wash: Wash
    rows: tuple[Row, ...]
    head: tuple[HeadCell | None, ...]

    @property
    def lines(self) -> Fraction:
        """Its height on the card, in rows."""
        return len(self.rows) + Fraction(bool(self.head), 2)


@dataclass(frozen=True)
class RigCard:
    """The front of a card, as numbers."""

    rig: Rig
    columns: tuple[Fraction, ...]
    lots: tuple[Lot, ...]

    @property
    def number(self) -> str:
        """Four signs that change when any number of the card does."""
        said = repr(
            [(r.wash.id, r.wash.strength, r.mark, r.soap, r.line_b, r.cells) for r in self.rows]
        )
        if self.rig.head:
            said += repr((self.rig.head.measured, [lot.head for lot in self.lots]))
        named = f"{self.rig.id} {self.columns} {said}"
        return blake2b(named.encode(), digest_size=2).hexdigest().upper()

    @property
    def rows(self) -> list[Row]:
        """Every row, from top to bottom."""
        return [row for lot in self.lots for row in lot.rows]

    @property
    def fronts(self) -> list[list[Lot]]:
        """The lots as they fit on fronts; nearly always there is one."""
        fronts: list[list[Lot]] = [[]]
        for lot in self.lots:
            if fronts[-1] and sum(each.lines for each in (*fronts[-1], lot)) > DENSE:
                fronts.append([])
            fronts[-1].append(lot)
        return fronts


def rig_card(shop: Shop, rig: Rig, relations: Relations) -> RigCard:
    """The card of a rig. Raises Refusal when no stock of the shop fits a column."""
    columns = columns_of(shop)
    if not columns:
        raise Refusal(
            f"no card for {rig.name}: the strongest stock is below {number_text(COLUMNS[-1])}%",
            "print the mix worksheet instead: rigprimer sheet mix-worksheet",
        )
    lots = tuple(_lot(shop, rig, wash, columns, relations) for wash in shop.washes)
    return RigCard(rig, columns, lots)


def columns_of(shop: Shop) -> tuple[Fraction, ...]:
    """The columns up to the strongest stock; none where no stock reaches the first."""
    return tuple(column for column in COLUMNS if column <= up(max(shop.stock)))


def fill_marks(rig: Rig) -> tuple[Fraction, ...]:
    """The rig's own marks; without any, the usual ones that its water can fill."""
    usual = tuple(mark for mark in USUAL_MARKS if mark <= rig.usable_gal)
    return rig.fill_marks or usual or (rig.usable_gal,)


def _lot(
    shop: Shop, rig: Rig, wash: Wash, columns: tuple[Fraction, ...], relations: Relations
) -> Lot:
    rows = tuple(_row(shop, wash, mark, columns, relations) for mark in fill_marks(rig))
    if rig.head is None:
        return Lot(wash, rows, ())
    head = rig.head
    return Lot(wash, rows, tuple(_head_cell(head, wash, each, relations) for each in columns))


def _head_cell(head: Head, wash: Wash, column: Fraction, relations: Relations) -> HeadCell | None:
    """The strongest setting that is not above the wash; None where all are."""
    found = [
        HeadCell(each.marks, value)
        for each in head.settings
        if (value := _on_the_wall(each, column, relations)) <= wash.strength
    ]
    return max(found, key=lambda cell: cell.strength, default=None)


def _on_the_wall(each: HeadSetting, column: Fraction, relations: Relations) -> Fraction:
    given = {"stock": column, "bleach": each.stock, "water": each.water, "soap": each.soap}
    value = work(relations["three-way"], given, "strength").value
    assert value is not None
    return value


def _row(
    shop: Shop, wash: Wash, mark: Fraction, columns: tuple[Fraction, ...], relations: Relations
) -> Row:
    given = {"oz_per_gal": wash.soap, "gal": mark}
    exact_soap = work(relations["soap"], given, "oz").value
    soap = down(exact_soap or Fraction(0))
    step = shop.jug_mark_gal
    cells = tuple(_cell(wash, mark, column, soap, step, relations) for column in columns)
    room = work(
        relations["water-first"], {"total": mark, "amount": Fraction(0), "soap": soap}, "water"
    )
    return Row(wash, mark, soap, down(room.value or Fraction(0), step), cells)


def _cell(
    wash: Wash,
    mark: Fraction,
    column: Fraction,
    soap: Fraction,
    step: Fraction,
    relations: Relations,
) -> Cell | None:
    """What to measure of stock that tests `column` percent; None where it can't be done."""
    given = {"stock": column, "target": wash.strength, "total": mark}
    amount = work(relations["batch"], given, "amount").value
    stock = down(amount, step) if amount is not None else Fraction(0)
    if not stock:
        return None
    water = work(
        relations["water-first"], {"total": mark, "amount": stock, "soap": soap}, "water"
    ).value
    return Cell(stock, down(water, step)) if water is not None else None


def rig_card_html(
    shop: Shop,
    card: RigCard,
    words: CardWords,
    sources: Mapping[str, Source],
    printed: date,
) -> str:
    """The card as HTML: two pages on their side, to be laminated back to back."""
    cited = dict.fromkeys(id_ for line in words.emergencies for id_ in line.sources)
    return render(
        "rig_card.html",
        shop,
        landscape=True,
        card=card,
        words=words,
        printed=printed.isoformat(),
        good_until=(printed + timedelta(days=shop.rules.renewal)).isoformat(),
        worn=[(name, pictogram(name)) for name in WORN],
        amount=lambda value: mixed_text(value) if value.denominator <= 16 else number_text(value),
        percent=number_text,
        wall=lambda value: number_text(up(value, Fraction(1, 100))),
        dense=[sum(lot.lines for lot in front) > FRONT for front in card.fronts],
        families=list(words.families.items()),
        cited=[sources[id_] for id_ in cited],
    )
