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
    dwell_from: Fraction | None = None  # min on the surface, at least
    dwell_to: Fraction | None = None  # min on the surface, at most


@dataclass(frozen=True)
class HeadSetting:
    """Marks of a head's three valves, and what each leg gave meanwhile, all in one unit."""

    marks: str
    stock: Fraction
    water: Fraction
    soap: Fraction


@dataclass(frozen=True)
class Head:
    """The draw-down of a rig's own mixing head, on an ISO date."""

    measured: str
    settings: tuple[HeadSetting, ...]


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
    soft_hose_in: Fraction | None = None  # low-pressure hose of the chemical pump
    soft_hose_ft: Fraction | None = None
    pump_psi: Fraction | None = None  # the chemical pump's own pressure
    fuel_gal: Fraction | None = None
    fuel_gph: Fraction | None = None
    battery_ah: Fraction | None = None
    pump_a: Fraction | None = None  # what the chemical pump takes from the battery
    gvwr_lb: Fraction | None = None  # most the loaded vehicle may weigh, from its door plate
    empty_lb: Fraction | None = None  # with gear, without water, stock and crew
    fill_marks: tuple[Fraction, ...] = ()  # gal painted on the tank a batch is mixed in
    head: Head | None = None  # None: batches only

    @property
    def usable_gal(self) -> Fraction:
        """Tank gallons that may be counted on."""
        return self.tank_gal - self.reserve_gal


@dataclass(frozen=True)
class StockTest:
    """The owner's own test of stock: strength on delivery, and what it tested days later."""

    new: Fraction  # % chlorine
    days: Fraction
    tested: Fraction


@dataclass(frozen=True)
class Limits:
    """The distances, times and shares the owner has set; the unit ends the name."""

    people_ft: Fraction = Fraction(25)  # people stay this far from a running jet
    glass_ft: Fraction = Fraction(10)  # glass nearer than this is covered
    cone_ft: Fraction = Fraction(10)  # cones no farther apart
    line_ft: Fraction = Fraction(10)  # kept from a power line, whatever is in the hand
    wind_mph: Fraction = Fraction(12)  # no spraying above it
    bypass_min: Fraction = Fraction(3)  # longest with the trigger off, machine running
    look_min: Fraction = Fraction(10)  # between two looks at the tank
    refuel_min: Fraction = Fraction(15)  # the engine cools this long before it gets fuel
    water_f: Fraction = Fraction(80)  # from here: water, shade, the new hire's schedule
    rest_f: Fraction = Fraction(90)  # from here: rests, and watching each other
    drink_oz: Fraction = Fraction(32)  # each person, each hour of heat
    drink_most_oz: Fraction = Fraction(48)
    overlap: Fraction = Fraction(30, 100)  # of a surface cleaner's lane
    mix_reserve: Fraction = Fraction(10, 100)  # made beyond what the area takes
    hose_slack: Fraction = Fraction(10, 100)


@dataclass(frozen=True)
class Lapse:
    """What takes a clearance away until it is proved again. A change of stock never does."""

    renewal: bool = True  # the time is up
    away: bool = True  # off the job too long
    new_edition: bool = True  # the grace after a change of substance is over
    incident: bool = True  # an incident or near miss in that skill
    hazard: bool = True  # a hazard the work did not have before
    equipment: bool = True  # other equipment
    strength_test: bool = True  # another device that tests the stock
    suspended: bool = True  # suspended from that skill, even when restored


@dataclass(frozen=True)
class Rules:
    """Clocks of the record, in days, and which triggers lapse a clearance."""

    renewal: int = 365
    grace: int = 14  # after an edition is raised
    away: int = 90  # off the job this long: a return paper
    lapse: Lapse = Lapse()


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
    limits: Limits = Limits()
    stock_tests: tuple[StockTest, ...] = ()
    settled: tuple[tuple[str, str], ...] = field(default=())  # (question, the owner's answer)
    copy_to: str = ""  # folder for a copy of the record after each write; "" for none
    spanish_checked: str = ""  # ISO date on which a fluent reader had read the Spanish

    @property
    def stock_half(self) -> Fraction | None:
        """Days until half of the stock is left, fitted to the owner's tests; None without any.

        By the second-order law new/tested − 1 is days/half, a line through nothing; this is the
        line of least squares. A guide for when to test, never a number to mix by.
        """
        rise = sum((t.days * (t.new / t.tested - 1) for t in self.stock_tests), Fraction(0))
        return sum((t.days**2 for t in self.stock_tests), Fraction(0)) / rise if rise > 0 else None

    def rig(self, rig_id: str) -> Rig | None:
        """The rig of that id, if the shop has it."""
        return next((rig for rig in self.rigs if rig.id == rig_id), None)
