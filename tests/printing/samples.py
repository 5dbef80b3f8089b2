"""An invented shop, module, papers and board, made by hand, to print every product from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from generator.model.board import Board, Cell, Duty, Row
from generator.model.course import (
    Blueprint,
    Caution,
    Check,
    Choice,
    FigureRequest,
    Lesson,
    Module,
    Point,
    PutRight,
    Question,
    SignOff,
    SkillLine,
    Source,
)
from generator.model.item import Answer, Item, Option, SlipValue
from generator.model.paper import Paper, Result, Verdict
from generator.model.problem import Problem
from generator.model.relation import Relation
from generator.model.shop import Rig, Shop, Wash
from generator.printing.board import board_html
from generator.printing.booklet import booklet_html
from generator.printing.key import key_html
from generator.printing.paper import paper_html
from generator.printing.slip import Advice, slip_html

F = Fraction

RIGS = (
    Rig("rig-1", "Rig 1", "trailer", F(275), F(25), F("5.5"), F(3000), F(60), F(7), F("0.6")),
    Rig("rig-2", "Rig 2", "van", F(100), F(10), F(4), F(2500), F(30), F(3), F("0.5")),
)
SHOP = Shop(
    name="Larkspur Bend Exterior Cleaning",
    page="letter",
    language="en",
    stock=(F("12.5"), F(10)),
    jug_mark_gal=F(1, 4),
    washes=(Wash("house", "House wash", F(1), F("1.5"), F(100)),),
    rigs=RIGS,
    ladders=(F(24), F(28), F(32)),
)

SOURCES = {
    "practice": Source("practice", "Common practice of the trade", "practice"),
    "cdc": Source(
        "cdc", "CDC, Best Practices for Environmental Cleaning, Appendix E", "seen", "2026-05-04"
    ),
    "niosh": Source("niosh", "NIOSH 96-118, carbon monoxide from small engines", "copy"),
    "worked": Source("worked", "Worked out here from the stated numbers", "worked"),
}

CAUTIONS = (
    Caution(
        "acid",
        "danger",
        "Never acid and bleach",
        "They make chlorine gas. It can kill.",
        "Leave at once. Go upwind and uphill.",
        "Call 911. Stay out.",
        ("cdc",),
    ),
    Caution(
        "splash",
        "warning",
        "Pour low, goggles and shield on",
        "A splash can blind you.",
        "Rinse at once, lids open, 15 minutes.",
        "Call 911.",
        ("cdc",),
    ),
    Caution(
        "slip",
        "caution",
        "Soap makes the ground slick",
        "You can fall and be hurt.",
        "Rinse your path. Walk flat.",
        "Tell the crew chief.",
        ("practice",),
    ),
    Caution(
        "seal",
        "notice",
        "Bleach left in a pump ruins it",
        "The seals swell and leak.",
        "Flush with clean water until it smells of nothing.",
        "",
        ("practice",),
    ),
)


def amount_item(
    id: str,
    ask: str,
    text: str,
    value: str,
    *,
    unit: str = "gal",
    mark: str = "1/4",
    working: tuple[str, ...] = (),
    must: bool = False,
    words: tuple[str, ...] = (),
    unit_printed: bool = True,
    lesson: str = "batch",
) -> Item:
    """A write-in item whose accepted range is half a mark to either side."""
    exact = F(value)
    half = F(mark) / 2
    return Item(
        id=id,
        form="write",
        seed=1,
        ask=ask,
        lesson=lesson,
        must=must,
        words=words,
        unit_printed=unit_printed,
        working=working,
        answer=Answer(exact, exact, unit, low=exact - half, high=exact + half, text=text),
        slips=(
            SlipValue(
                "upside-down",
                "divided upside down",
                "You divided the wrong way round.",
                F(188),
                "",
                f"188 {unit}",
            ),
            SlipValue(
                "label",
                "used the label strength",
                "Use what it tests today.",
                F("2.4"),
                "",
                f"2.4 {unit}",
            ),
            SlipValue(
                "added",
                "added on top of a full tank",
                "The total counts the stock.",
                F("3.1"),
                "",
                f"3.1 {unit}",
            ),
        ),
    )


def batch_item(
    total: int, target: str, stock: str, text: str, value: str, *, must: bool = False
) -> Item:
    """How much stock for a batch."""
    return amount_item(
        "batch-stock",
        f"Rig tank empty. You need {total} gal of mix at {target}%. The stock tests {stock}%. "
        "How much stock do you measure? Round **down** to the nearest 1/4 gal.",
        text,
        value,
        words=("cannot",),
        working=(
            "stock to measure = strength wanted × finished mix ÷ stock strength",
            f"= {target} × {total} ÷ {stock} = {text}",
        ),
        must=must,
    )


def dry_item(gal: int, out: str, into: str, text: str, value: str) -> Item:
    """Minutes until the tank is dry, the unit left to the person."""
    return amount_item(
        "run-dry-time",
        f"The tank holds {gal} usable gal. The machine takes {out} gpm. The tap gives {into} gpm. "
        "You hold the trigger. After how many minutes is the tank dry? "
        "Round **down** to a whole minute.",
        text,
        value,
        unit="min",
        mark="1",
        words=("never",),
        unit_printed=False,
        working=(
            "minutes = usable gallons ÷ (water out − water in)",
            f"= {gal} ÷ ({out} − {into}) = {text}",
        ),
    )


def choice_item(ask: str, texts: tuple[str, str, str], right: int, *, must: bool = False) -> Item:
    """A choose-one item."""
    return Item(
        id="quarter-or-fifth",
        form="choose",
        seed=3,
        ask=ask,
        must=must,
        lesson="ratios",
        answer=Answer(None, None, "", text=texts[right]),
        options=tuple(
            Option(text, n == right, slip="" if n == right else f"slip-{n}", reason="Because.")
            for n, text in enumerate(texts)
        ),
        slips=tuple(
            SlipValue(
                f"slip-{n}", "took it for a part of four", "Count all the parts.", None, "", text
            )
            for n, text in enumerate(texts)
            if n != right
        ),
    )


ORDER = Item(
    id="order-of-adding",
    form="order",
    seed=4,
    order="BCA",
    lesson="batch",
    must=True,
    ask="The tank is empty. In which order do they go in?",
    answer=Answer(None, None, "", text="Water, stock, soap"),
    options=(Option("Soap", False), Option("Water", False), Option("Stock", False)),
)

BATCH = (
    batch_item(30, "1.2", "12.5", "2 3/4 gal", "11/4"),
    batch_item(45, "1", "10", "4 1/2 gal", "9/2"),
    batch_item(20, "3", "12.5", "4 3/4 gal", "19/4"),
)
DRY = (
    dry_item(250, "5.5", "3", "100 min", "100"),
    dry_item(90, "4", "2.5", "60 min", "60"),
    dry_item(200, "8", "5", "66 min", "66"),
)
FIFTH = choice_item(
    'A card says "1 part stock plus 4 parts water". How much of the mix is stock?',
    ("One quarter", "One fifth", "Four fifths"),
    1,
    must=True,
)

QUESTIONS = (
    Question(
        "quarter-or-fifth",
        "mixing",
        "ratios",
        'A card says "1 part stock plus 4 parts water". How much of the mix is stock?',
        options=(
            Choice("One fifth", True, "One part in five parts."),
            Choice("One quarter", False, "That is 1 plus 3."),
            Choice("Four fifths", False, "That is the water."),
        ),
        must=True,
    ),
    Question(
        "order-of-adding",
        "mixing",
        "batch",
        "In which order do they go into the tank?",
        order=("Water", "Stock", "Soap"),
        reason="Water first, so that nothing strong splashes.",
    ),
)

RATIOS = Lesson(
    id="ratios",
    title="Ratios and fractions",
    aim="You can tell 1 to 4 from one quarter, every time.",
    minutes=25,
    why="Two people say *a quarter*. One means 1 part in 4. The other means 1 to 4.\n\n"
    "Their mixes differ by a fourth, and the wall pays for it.",
    points=(
        Point(
            "total",
            "Count all the parts",
            "A ratio names each part on its own. **Add them up before you divide.** "
            "One to four is five parts in all.\n\n"
            "| You hear | Parts in all | Stock is |\n|---|---|---|\n"
            "| 1 to 4 | 5 | 1/5, or 20% |\n| 1/4 | 4 | 1/4, or 25% |\n"
            "| 1 to 9 | 10 | 1/10, or 10% |\n",
        ),
        Point(
            "aloud",
            "Say it aloud, hear it back",
            "Say the parts *and* the total: “one to four, five in all”.\n\n"
            "- The other person says it back.\n- Only then does the stock go in.\n"
            "- If the words differ, stop and write it down.",
        ),
    ),
    steps=(
        "Say it aloud: one to four, five in all.",
        "Divide one by the total.",
        "Multiply by what the stock tests today.",
    ),
    cautions=CAUTIONS[:2],
    checks=(
        Check(
            "two-jars",
            "Mix 1 to 4 and one quarter in two jars with dye.",
            "Says which is stronger, and why.",
        ),
        Check(
            "read-back",
            "Take three mixes by voice and read each back.",
            "Parts and total right, three times out of three.",
        ),
    ),
    put_right=(
        PutRight("1 to 4 is a quarter.", "1 to 4 is one part in five: a fifth."),
        PutRight("A bit extra never hurts.", "Extra burns plants and eyes. Measure it."),
    ),
    figures=(
        FigureRequest(
            "ratio-fraction",
            "Same length, different cells: 1 to 4 above, one quarter below.",
            "Two bars. The upper has five cells, one hatched. The lower has four, one hatched.",
            {"water_parts": F(4)},
        ),
    ),
    examples=("run-dry-time",),
    questions=QUESTIONS[:1],
    sources=("cdc", "worked"),
)
BATCHES = Lesson(
    id="batch",
    title="A batch in a tank",
    aim="You can fill a tank so that the mix is what the card says.",
    minutes=35,
    why="Too weak wastes the day. Too strong kills plants and strips paint.",
    points=(
        Point(
            "make-up",
            "Make it up to the total",
            "The total counts **everything**: water, stock and soap. So the water line comes "
            "first, then stock up to the next line.",
        ),
        Point(
            "today",
            "Use what it tests today",
            "Stock gets weaker in the heat. A label never does. Test the stock and write the "
            "date on the tank.",
        ),
    ),
    steps=(
        "Water to the first line.",
        "Stock to the second line.",
        "Soap last.",
        "Label it and log it.",
    ),
    cautions=CAUTIONS[2:],
    checks=(Check("five-gal", "Mix 5 gal and test it with a strip.", "Within 10% of the card."),),
    figures=(
        FigureRequest(
            "batch-bar",
            "The two lines for 30 gal at 1.2%.",
            "A tank with water up to 27.12 gal and stock from there to 30 gal.",
            {"stock": F("12.5"), "target": F("1.2"), "total": F(30), "amount": F("2.88")},
        ),
        FigureRequest(
            "head-parts",
            "Three valves: soap counts as a part of the whole.",
            "A bar of ten cells: three of stock, six of water, one of soap.",
            {"stock": F("12.5"), "bleach": F(3), "water": F(6), "soap": F(1)},
        ),
    ),
    examples=("batch-stock",),
    practice=("batch-stock", "run-dry-time"),
    questions=QUESTIONS[1:],
    put_right=(PutRight("Stock first, it mixes better.", "Water first. Stock splashes."),),
    sources=("practice", "worked"),
)
SHORT = Lesson(
    id="log",
    title="The log and the label",
    aim="You can write a line that proves the mix.",
    minutes=10,
    points=(Point("line", "One line a mix", "Who, when, stock today, parts, total, used."),),
    sources=("practice",),
)

MODULE = Module(
    id="mixing",
    title="Mixing",
    short="mix",
    aim="You can mix any total, at any strength, alone.",
    edition=3,
    wording="",
    digest="",
    lessons=(RATIOS, BATCHES, SHORT),
    problems=(),
    blueprint=Blueprint(18, 6, 22, 2, 1, 2),
    sign_off=SignOff(
        (
            SkillLine(
                "ppe", "Puts on goggles, shield and gloves.", "Before the lid is open.", must=True
            ),
            SkillLine("eyewash", "Reaches the eyewash with eyes shut.", "Within ten seconds."),
            SkillLine(
                "water",
                "Fills water to the first line, then stock, then soap.",
                "In that order. Pours low.",
                must=True,
            ),
            SkillLine(
                "test",
                "Tests the stock and the finished mix.",
                "Uses today's number, not the label.",
            ),
            SkillLine("label", "Labels the tank and writes the log.", "Product, strength, date."),
        ),
        per_rig=True,
    ),
    requires=("gear", "card-mixing"),
    grants="mix",
    may_passed="Mix alone on the rigs you are signed off on.",
    may_not_yet="Wash, rinse, fill water and help. Do not mix alone.",
)


def problem(id: str, lesson: str, title: str, convention: str) -> Problem:
    """A problem of which pages print only the relation's title and convention."""
    relation = Relation(id, title, {}, {}, {}, (), convention)
    return Problem(
        id, "mixing", lesson, relation, "amount", "", "crew", (), (), F(1, 4), "down", ()
    )


PROBLEMS = {
    "batch-stock": problem(
        "batch-stock",
        "batch",
        "Stock for a batch",
        "The stock is made up to the total with water, so the total counts everything.",
    ),
    "run-dry-time": problem("run-dry-time", "ratios", "How long the tank lasts", ""),
}

ITEMS = (
    *BATCH,
    *DRY,
    FIFTH,
    ORDER,
    batch_item(50, "2", "12.5", "8 gal", "8", must=True),
    *(batch_item(10 * n, "1", "10", f"{n} gal", str(n)) for n in range(1, 9)),
    *(dry_item(100 * n, "6", "4", f"{50 * n} min", str(50 * n)) for n in range(1, 6)),
    choice_item(
        "The stock is old and hot. What do you do before you mix?",
        ("Test it with a strip", "Use the number on the label", "Add a third more"),
        0,
    ),
    choice_item(
        "Somebody left an open jug with no label. What is it?",
        ("Bleach, by the smell", "Nothing you may use", "Soap, if it foams"),
        1,
    ),
)


def paper(code: str, person: str, *, practice: bool = False, items: int = 24) -> Paper:
    """A paper of so many items."""
    return Paper(
        code,
        "00",
        "mixing",
        "Mixing",
        3,
        "",
        person,
        "2026-05-04",
        ITEMS[:items],
        22 if items == 24 else items - 1,
        practice=practice,
    )


PAPERS = (paper("7K3Q-M", "Ada"), paper("9XPD-4", "", items=10))
STRIP = (
    "stock to measure = strength wanted × finished mix ÷ stock strength",
    "1 to 4 is 5 parts in all",
    "minutes = usable gallons ÷ (gpm out − gpm in)",
    "1 gal = 4 qt = 128 fl oz",
)


def result(passed: bool = False) -> Result:
    """Ada's paper, marked."""
    wrong = (
        {}
        if passed
        else {
            2: (
                "4 1/4 gal",
                "slip",
                "label",
                "You used the label strength. Use what it tests today.",
            ),
            5: ("60", "no-unit", "", "The number is right. Write the unit with it."),
            7: ("A", "slip", "slip-0", "1 to 4 has five parts. One of them is stock."),
            12: ("", "blank", "", "You left it blank. Ask for it to be read aloud."),
        }
    )
    verdicts = tuple(
        Verdict(n, *wrong[n][:2], False, wrong[n][2], wrong[n][3])
        if n in wrong
        else Verdict(n, "ok", "right", True)
        for n in range(1, 25)
    )
    return Result(PAPERS[0], verdicts, () if passed else (7,), passed)


def may(due: str, state: str = "cleared") -> Cell:
    """A clearance of a year that ends on that day (ISO)."""
    return Cell(state, due, (), f"{int(due[:4]) - 1}{due[4:]}", due)


BOARD = Board(
    date="2026-05-04",
    modules=("gear", "debris", "card", "mix", "ladders"),
    duties=(
        Duty("Rig 1", "Ada and Teo may mix today.", True),
        Duty("Rig 2", "Nobody may mix today.", False),
    ),
    rows=(
        Row(
            "Ada",
            "trainer",
            (
                may("2027-03-02"),
                may("2027-03-02"),
                may("2027-03-09"),
                may("2026-05-20", "due soon"),
                replace(may("2026-11-30"), note="E1"),
            ),
        ),
        Row(
            "Teo",
            "crew",
            (
                may("2027-02-11"),
                may("2027-02-18"),
                may("2027-04-01"),
                may("2027-04-20"),
                Cell("not started", "", ("pass the written paper", "be signed off")),
            ),
            ("not begun: ladders",),
        ),
        Row(
            "Marisol",
            "crew chief",
            (
                Cell("re-brief", "2026-05-12", (), "2026-04-28", "2026-05-12"),
                may("2026-12-01"),
                Cell("passed paper", "2026-04-02", (), "2026-04-02"),
                Cell("learning", "2026-04-20", (), "2026-04-20"),
                Cell("lapsed", "2026-04-30", (), "2026-04-30"),
            ),
            (
                "gear: re-brief",
                "card, Rig 2: data sheets, sign-off",
                "mix, both rigs: 2 lessons, paper",
                "ladders: new paper",
            ),
        ),
        Row(
            "Ike",
            "crew",
            (
                Cell("learning", "2026-05-01", ("pass the written paper",), "2026-05-01"),
                Cell("suspended", "2026-05-02", ("the owner must lift it",), "2026-05-02"),
                Cell("not started"),
                Cell("not started"),
                Cell("not started"),
            ),
            ("gear: paper", "debris: owner must lift it", "not begun: card, mix, ladders"),
        ),
    ),
    note="Two exceptions by the owner stand until May 9.",
    head="b3f1 90c2 77ae 10d4",
    exceptions=("E1 Ada, ladders: Odile opened a try early on 2025-11-30: job next day",),
)


def booklet(half: bool = False) -> str:
    """The booklet of the module, with `half` on pages of half the size."""
    return booklet_html(
        SHOP,
        MODULE,
        SOURCES,
        {"batch-stock": BATCH, "run-dry-time": DRY},
        {"batch-stock": BATCH, "run-dry-time": DRY[:2]},
        PROBLEMS,
        half,
        ("Stones, glass and people", "The rig"),
    )


PRODUCTS: dict[str, Callable[[], str]] = {
    "booklet": booklet,
    "paper": lambda: paper_html(SHOP, PAPERS, STRIP),
    "key": lambda: key_html(SHOP, PAPERS),
    "slip": lambda: slip_html(
        SHOP,
        MODULE,
        result(),
        Advice(reads=(("Ratios and fractions", "page 3"),), fresh=BATCH[:2]),
    ),
    "slip-practice": lambda: slip_html(
        SHOP,
        MODULE,
        replace(result(), paper=replace(PAPERS[0], practice=True), must_missed=()),
        Advice(),
    ),
    "slip-passed": lambda: slip_html(SHOP, MODULE, result(passed=True), Advice()),
    "board": lambda: board_html(SHOP, BOARD),
    "a4": lambda: booklet_html(
        replace(SHOP, page="a4"), replace(MODULE, lessons=(SHORT,)), SOURCES, {}, {}, {}
    ),
}
