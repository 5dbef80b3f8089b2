"""Everything that is printed beside the papers, by name: what it is, and how its page is made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, partial
from hashlib import sha256
from pathlib import Path

from generator.errors import Fault, Faults, Refusal, nearest
from generator.model.course import Curriculum
from generator.model.season import Season
from generator.model.shop import Rig
from generator.printing.figures import draw
from generator.printing.guide import guide_html
from generator.printing.leaflet import leaflet_html
from generator.printing.rig_card import columns_of, rig_card, rig_card_html
from generator.printing.safety_figures import safety_figures_html
from generator.printing.sheets import has_reviews, sheet_html, sign_off_html
from generator.printing.stylesheet import for_phone
from generator.reading.curriculum import Places, read_all
from generator.words import WRITTEN_IN
from generator.workflows.booklet import html_of
from generator.workflows.press import Done, Job, run_off
from generator.workflows.today import today

LEAFLET = "first-day"
SAFETY_FIGURES = "safety-figures"
TRANSLATED = ("booklets", "phone", "sign-offs")
"""Kinds of which the lessons hold all the words, so that a translation of those is one of them."""
_ANY_DAY = date(2000, 1, 1)


@dataclass(frozen=True)
class Product:
    """A thing to print. `page` makes its HTML; `lasting` the same without the day of printing."""

    id: str
    title: str
    kind: str  # booklets, phone, sheets, sign-offs, cards, leaflet or guides
    file: str  # within the folder of printed things
    page: Callable[[], str]
    lasting: Callable[[], str]
    fold: str = ""  # file of the copy for folding
    most: int = 0  # pages it must not go beyond; 0 for as many as it takes

    def job(self, out: Path) -> Job:
        """The product as work for the press. Raises Refusal, naming it."""
        copy = out / self.fold if self.fold else None
        return Job(self.id, self.title, self.made(self.page), out / self.file, copy, self.most)

    def digest(self) -> str:
        """What tells whether it would come out as it did. Raises Refusal, naming it."""
        return sha256(self.made(self.lasting).encode()).hexdigest()

    def made(self, page: Callable[[], str]) -> str:
        """The HTML that a function makes. Raises Refusal, naming the product."""
        try:
            return page()
        except Refusal as refusal:
            raise Refusal(f"{self.title}: {refusal.what}", refusal.next) from refusal


def products(curriculum: Curriculum, season: Season | None = None) -> dict[str, Product]:
    """Every product of a curriculum by id."""
    made = [
        *_of_modules(curriculum),
        *([_safety_figures(curriculum)] if curriculum.stated else []),
        *(_form(curriculum, name, season) for name in curriculum.sheets),
        *(_card(curriculum, rig) for rig in curriculum.shop.rigs if has_cards(curriculum)),
        *([_leaflet(curriculum)] if curriculum.handouts.leaflet else []),
    ]
    return {product.id: product for product in made}


def has_cards(curriculum: Curriculum) -> bool:
    """Whether rig cards can be made: the words are there, and a stock fits a column."""
    return curriculum.handouts.card is not None and bool(columns_of(curriculum.shop))


def read_drawable(folder: Path) -> Curriculum:
    """The curriculum in a folder. Raises Faults for all that is wrong, figures included."""
    reading = read_all(folder)
    if reading.curriculum is None or reading.faults:
        raise Faults(reading.faults)
    if faults := list(figure_faults(reading.curriculum, reading.places)):
        raise Faults(faults)
    return reading.curriculum


def figure_faults(curriculum: Curriculum, places: Places) -> Iterator[Fault]:
    """Every figure or sign of a lesson or of the leaflet that can't be drawn, with its place."""
    for module in curriculum.modules.values():
        for lesson in module.lessons:
            for number, request in enumerate(lesson.figures):
                try:
                    draw(request.figure, request.numbers)
                except Refusal as refusal:
                    place = places.get(("figure", f"{module.id}/{lesson.id}/{number}"))
                    yield refusal.at(*(place or ("", 0)))
    for n, page in enumerate(curriculum.handouts.leaflet):
        try:
            leaflet_html(curriculum.shop, [page])
        except Refusal as refusal:
            yield refusal.at(*places["leaflet", str(n)])


def _product(
    id: str, title: str, kind: str, file: str, page: Callable[[], str], most: int = 0
) -> Product:
    once = cache(page)  # asked for twice: to see whether it changed, and to print it
    return Product(id, title, kind, file, once, once, most=most)


def _of_modules(curriculum: Curriculum) -> list[Product]:
    made: list[Product] = []
    for name, module in curriculum.modules.items():
        booklet = cache(partial(html_of, curriculum, module))
        guide = partial(guide_html, curriculum.shop, module)
        sheet = partial(sign_off_html, curriculum.shop, module)
        title = module.title
        made += [
            _product(f"booklet-{name}", title, "booklets", f"{name}-booklet.pdf", booklet),
            _product(
                f"phone-{name}",
                f"{title}: for a phone",
                "phone",
                f"phone/{name}.html",
                partial(_on_phone, booklet),
            ),
            _product(
                f"guide-{name}", f"{title}: guide", "guides", f"guides/{name}-guide.pdf", guide
            ),
            _product(
                f"signoff-{name}",
                f"{title}: sign-off sheet",
                "sign-offs",
                f"sheets/signoff-{name}.pdf",
                sheet,
                most=1,
            ),
        ]
    return made


def _on_phone(booklet: Callable[[], str]) -> str:
    return for_phone(booklet())


def _safety_figures(curriculum: Curriculum) -> Product:
    c, name = curriculum, SAFETY_FIGURES
    page = partial(safety_figures_html, c.shop, c.modules, c.stated, c.sources)
    title = "Where our safety figures come from"
    return _product(name, title, "sheets", f"sheets/{name}.pdf", page)


def _form(curriculum: Curriculum, name: str, season: Season | None) -> Product:
    sheet = curriculum.sheets[name]
    page = partial(sheet_html, curriculum.shop, sheet, curriculum.sources, season)
    return _product(name, sheet.title, "sheets", f"sheets/{name}.pdf", page)


def _card(curriculum: Curriculum, rig: Rig) -> Product:
    shop, words = curriculum.shop, curriculum.handouts.card
    card = rig_card(shop, rig, curriculum.relations)

    def page(day: date) -> str:
        assert words
        return rig_card_html(shop, card, words, curriculum.sources, day)

    return Product(
        id=f"card-{rig.id}",
        title=f"{rig.name}: card",
        kind="cards",
        file=f"cards/{rig.id}-card.pdf",
        page=lambda: page(date.fromisoformat(today())),
        lasting=lambda: page(_ANY_DAY),
        most=len(card.fronts) + 1,
    )


def _leaflet(curriculum: Curriculum) -> Product:
    shop, handouts = curriculum.shop, curriculum.handouts
    spanish_read = bool(handouts.card and handouts.card.spanish_read)
    page = cache(partial(leaflet_html, shop, handouts.leaflet, spanish_read))
    title = "Leaflet of the first day"
    halves, fold = f"{LEAFLET}.pdf", f"{LEAFLET}-fold.pdf"
    return Product(LEAFLET, title, "leaflet", halves, page, page, fold, len(handouts.leaflet))


def print_one(
    curriculum: Curriculum,
    name: str,
    out: Path,
    season: Season | None = None,
    language: str | None = None,
) -> Done:
    """Print the product of that id. Raises Refusal when there is none, or it can't be printed.

    `language` is that of the curriculum, where it was asked for: the file is called after it.
    """
    known = products(curriculum, season)
    if name not in known:
        raise Refusal(f'there is no sheet "{name}"', nearest(name, known))
    if season and not (name in curriculum.sheets and has_reviews(curriculum.sheets[name])):
        raise Refusal(f'"{name}" has no review days', "leave out --start and --days")
    job = known[name].job(out)
    if language not in (None, WRITTEN_IN):
        if known[name].kind not in TRANSLATED:
            raise Refusal(f'"{name}" is not translated', "leave out --language")
        job = replace(job, path=job.path.with_stem(f"{job.path.stem}-{language}"))
    (done,) = run_off([job])
    return done
