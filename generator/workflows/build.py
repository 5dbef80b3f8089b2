"""Print everything, but only what has changed since the last time.

What may have changed is told from the bytes of the files, the versions of the libraries and the
code, before anything is parsed. Of that, only pages whose HTML differs are printed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from generator.errors import Refusal, nearest
from generator.workflows.manifest import (
    Entry,
    File,
    Made,
    digest_of,
    read_manifest,
    write_manifest,
)
from generator.workflows.sources_of import Part, Snapshot, parts_of

if TYPE_CHECKING:  # loaded only once there is something to print
    from generator.workflows.press import Done, Job
    from generator.workflows.sheets import Product

NO_CARDS = "no rig cards: no stock of shop.yaml is as strong as the weakest column of a card"
Tell = Callable[[int, int], None]
KINDS = ("booklets", "phone", "sheets", "sign-offs", "cards", "leaflet", "guides")


@dataclass
class Built:
    """What there is after a build by product id, which of it was printed now, what to know."""

    made: dict[str, Made] = field(default_factory=dict)
    printed: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def pages(self) -> int:
        """Pages of everything there is now."""
        return sum(file.pages for made in self.made.values() for file in made.files)


def build(
    curriculum: Path, out: Path, what: Sequence[str] = (), tell: Tell = lambda done, all: None
) -> Built:
    """Bring the printed things of those kinds up to date; of all kinds when none is named.

    `tell` hears how many of all that was out of date is done, each time a thing is. Raises Faults
    when the curriculum has any, and Refusal for an unknown kind or a page that can't be printed.
    Whatever ends it, every file is whole, old or new.
    """
    kinds = _kinds(what)
    work = _Work(curriculum, out, read_manifest(out), tell)
    parts = [part for part in parts_of(curriculum) if part.kind in kinds]
    stale = [part for part in parts if not work.is_fresh(part)]
    if stale:
        work.print_parts(stale)
    for part in parts:
        work.built.made.update(work.kept[part.id].made)
    return work.built


def _kinds(what: Sequence[str]) -> frozenset[str]:
    for word in what:
        if word not in KINDS:
            raise Refusal(f'"{word}" is not printed by build', nearest(word, KINDS))
    return frozenset(what or KINDS)


class _Work:
    """A build under way: what is kept of the last one, and what becomes of it."""

    def __init__(self, curriculum: Path, out: Path, kept: dict[str, Entry], tell: Tell) -> None:
        self.curriculum, self.out, self.kept, self.tell = curriculum, out, kept, tell
        self.before = Snapshot(curriculum)  # an edit made meanwhile counts next time
        self.built = Built()
        self.pages: dict[str, str] = {}  # digests of the pages in the press, by product
        self.in_press: dict[str, tuple[Part, Product]] = {}

    def is_fresh(self, part: Part) -> bool:
        entry = self.kept.get(part.id)
        return entry is not None and entry.is_fresh(self.before.key(part), self.out)

    def print_parts(self, stale: list[Part]) -> None:
        """Make the pages of the parts and print those that differ; remember what is done."""
        from generator.workflows.press import run_off
        from generator.workflows.sheets import has_cards, products, read_drawable

        read = read_drawable(self.curriculum)
        known = products(read)
        if not has_cards(read) and any(part.kind == "cards" for part in stale):
            self.built.notes.append(NO_CARDS)
        wanted = {part: [p for p in known.values() if part.makes(p.kind, p.id)] for part in stale}
        made: dict[Part, dict[str, Made]] = {part: {} for part in stale}
        total = sum(map(len, wanted.values()))
        try:
            for done in run_off(self.jobs(wanted, made)):
                part, product = self.in_press[done.job.id]
                made[part][product.id] = self.note(product, done)
                self.tell(sum(map(len, made.values())), total)
        finally:
            for part in stale:
                if len(made[part]) == len(wanted[part]):
                    self.kept[part.id] = Entry(self.before.key(part), made[part])
            write_manifest(self.out, self.kept)

    def jobs(
        self, wanted: dict[Part, list[Product]], made: dict[Part, dict[str, Made]]
    ) -> Iterator[Job]:
        """What has to be printed; what is right as it lies there is noted as `made`."""
        for part, products in wanted.items():
            for product in products:
                if right := self.still_right(part, product):
                    made[part][product.id] = right
                else:
                    self.in_press[product.id] = part, product
                    yield product.job(self.out)

    def still_right(self, part: Part, product: Product) -> Made | None:
        """What was made of the product, if its page is the one that was printed and lies there."""
        made = self.kept[part.id].made.get(product.id) if part.id in self.kept else None
        self.pages[product.id] = product.digest()
        fits = made and made.page == self.pages[product.id] and made.is_there(self.out)
        return made if fits else None

    def note(self, product: Product, done: Done) -> Made:
        self.built.printed.append(product.id)
        self.built.notes += [n for n in done.printed.notes if n not in self.built.notes]
        files = (
            File(path.relative_to(self.out).as_posix(), pages, digest_of(path.read_bytes()))
            for path, pages in done.pages
        )
        return Made(product.kind, product.title, self.pages[product.id], tuple(files))
