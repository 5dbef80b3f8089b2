"""Numbers typed into a lesson that shop.yaml also holds: they would not follow the owner's edit.

Many a published fact equals some setting by chance (15 minutes of flushing, 15 minutes to cool).
So number and unit must be those of the setting, and the passage must speak of what it is about.
A lesson may keep a typed number by naming it: `typed_ok: ["15 minutes"]`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from generator.errors import Fault
from generator.model.shop import Shop, Wash
from generator.reading.lookups import settings
from generator.reading.nodes import Document
from generator.reading.prose import Passage, is_lesson, passages
from generator.reading.stated import stated

_ABOUT = {  # the end of a setting's name: words, one of which a passage about it would hold
    "battery_ah": "battery",
    "bypass_min": "trigger|bypass",
    "chemical_gpm": "chemical",
    "cleaner_in": "hood|cleaner",
    "cone_ft": "cone",
    "coverage": "cover",
    "drink_most_oz": "drink|hour",
    "drink_oz": "drink|hour",
    "empty_lb": "empty",
    "fuel_gal": "fuel",
    "fuel_gph": "fuel|burn",
    "glass_ft": "glass|window",
    "gvwr_lb": "gvwr|plate",
    "hose_ft": "hose",
    "hose_in": "hose",
    "hose_slack": "slack",
    "jug_mark": "mark",
    "ladders": "our|own",
    "line_ft": "power|wire",
    "look_min": "look",
    "machine_gpm": "machine",
    "machine_psi": "machine",
    "mix_reserve": "reserve",
    "overlap": "overlap",
    "people_ft": "people|zone|bystander",
    "pump_a": "pump",
    "pump_psi": "pump",
    "refuel_min": "fuel|refuel|engine",
    "reserve_gal": "reserve",
    "rest_f": "rest|buddy",
    "siphon_gpm": "siphon",
    "soap": "soap",
    "soft_hose_ft": "hose",
    "soft_hose_in": "hose",
    "stock": "our|arrive|deliver",
    "stock_tank_gal": "stock tank",
    "tank_gal": "tank",
    "usable_gal": "usable",
    "water_f": "shade|water|heat",
    "wind_mph": "wind",
}
Held = Mapping[tuple[str, Fraction], list[str]]


def typed_warnings(shop: Shop, documents: Mapping[str, Document]) -> Iterator[Fault]:
    """Every typed number that should be a look-up, with file, line and the look-up to use."""
    held, about = _held(shop), _about(shop)
    for document in documents.values():
        if is_lesson(document):
            allowed = {_plain(text) for text in document.data.get("typed_ok", [])}
            for passage in passages(document):
                yield from _in_passage(document.file, passage, held, about, allowed)


def _in_passage(
    file: str, passage: Passage, held: Held, about: Mapping[str, str], allowed: set[str]
) -> Iterator[Fault]:
    for written, unit, value in stated(passage.text):
        names = [
            name for name in held.get((unit, value), ()) if _speaks_of(passage.text, name, about)
        ]
        if names and _plain(written) not in allowed:
            use = " or ".join(f"{{{name}}}" for name in names)
            yield Fault(
                file,
                passage.line,
                f'"{written}" is typed; shop.yaml holds it too',
                f'write {use}; if it is not the shop\'s number, add typed_ok: ["{written}"]',
            )


def _held(shop: Shop) -> Held:
    """The look-ups of every number of the shop; a share is written as a percent."""
    held: dict[tuple[str, Fraction], list[str]] = {}
    for name, setting in settings(shop).items():
        if name in ("shop.stock", "shop.wash_strengths"):  # each stands alone too
            continue
        share = setting.unit.is_fraction
        for value in setting.values:
            key = ("%", value * 100) if share else (setting.unit.text, value)
            held.setdefault(key, []).append(name)
    return held


def _about(shop: Shop) -> dict[str, str]:
    """The words of each setting; those of a wash are of its title."""
    washes = {f"shop.wash.{wash.id}": _wash_words(wash) for wash in shop.washes}
    stocks = {f"shop.stock.{n}": _ABOUT["stock"] for n in range(1, len(shop.stock) + 1)}
    return _ABOUT | washes | stocks


def _wash_words(wash: Wash) -> str:
    words = {wash.id, *wash.title.lower().split()} - {"wash", "treatment"}
    return "|".join(map(re.escape, sorted(words)))


def _speaks_of(text: str, name: str, about: Mapping[str, str]) -> bool:
    """Whether a passage is about the setting: it holds one of its words, and no other rig."""
    rig, own = re.search(r"rig-\d+", name), name.rsplit(".", 1)[-1]
    rigs = {f"rig-{number}" for number in re.findall(r"\b[Rr]ig[- ](\d+)", text)}
    if rig and rigs and rig[0] not in rigs:
        return False
    wash = re.match(r"shop\.wash\.[\w-]+", name)
    if wash and wash[0] != name:
        return _holds(text, about[wash[0]]) and _holds(text, about.get(own, "dwell"))
    return _holds(text, about[name] if name in about else about[own])


def _holds(text: str, words: str) -> bool:
    return re.search(rf"\b(?:{words})", text, re.IGNORECASE) is not None


def _plain(text: str) -> str:
    return text.replace(" ", "").replace("-", "").lower()
