"""The company: its rigs, stock, wash strengths and rules, as settled by the owner."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True)
class Wash:
    """A kind of wash: its strength on the surface and what one gallon of mix covers."""

    id: str
    title: str
    strength: Fraction  # % chlorine on the surface
    soap: Fraction  # fl oz of soap in each gallon of mix
    coverage: Fraction | None = None  # sqft a gallon of mix covers


@dataclass(frozen=True)
class Rig:
    """A truck or trailer with its tanks and pumps."""

    id: str
    name: str
    kind: str
    tank_gal: Fraction
    reserve_gal: Fraction  # left below the outlet or kept back; never counted on
    machine_gpm: Fraction
    machine_psi: Fraction
    stock_tank_gal: Fraction
    chemical_gpm: Fraction
    siphon_gpm: Fraction | None = None  # draw-down measured on this rig
    hose_in: Fraction = Fraction(3, 8)  # inside diameter
    hose_ft: Fraction = Fraction(200)
    cleaner_in: Fraction = Fraction(20)  # surface cleaner, cleaning width

    @property
    def usable_gal(self) -> Fraction:
        """Tank gallons that may be counted on."""
        return self.tank_gal - self.reserve_gal


@dataclass(frozen=True)
class Rules:
    """Clocks of the record, in days."""

    renewal: int = 365
    grace: int = 14  # after an edition is raised
    away: int = 90  # off the job this long: a return paper


@dataclass(frozen=True)
class Shop:
    """Everything `shop.yaml` says."""

    name: str
    page: str  # "letter" or "a4"
    language: str
    stock: tuple[Fraction, ...]  # % chlorine of each stock on hand, as delivered
    jug_mark_gal: Fraction  # smallest mark on the measuring jug
    washes: tuple[Wash, ...]
    rigs: tuple[Rig, ...]
    ladders: tuple[Fraction, ...]  # ft
    rules: Rules = Rules()
    settled: tuple[tuple[str, str], ...] = field(default=())  # (question, the owner's answer)

    def rig(self, rig_id: str) -> Rig | None:
        """The rig of that id, if the shop has it."""
        return next((rig for rig in self.rigs if rig.id == rig_id), None)
