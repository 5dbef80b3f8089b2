"""A new shop folder: a dozen plain questions, and the files an owner edits from then on."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.errors import Refusal
from generator.maths import exact
from generator.words.letters import lacking
from generator.workflows.place import starter

STRONGEST_STOCK = 20  # percent; shop.yaml takes no more

Ask = Callable[[str, str], str]
"""Asks a question with a default, and returns what was typed."""


@dataclass(frozen=True)
class Question:
    """One question of the start, and the default that Enter takes."""

    key: str
    text: str
    default: str
    kind: str = "number"  # "number", "list" or "text"


QUESTIONS = (
    Question("name", "What is your company called?", "My Exterior Cleaning", "text"),
    Question("page", "Paper size, letter or a4?", "letter", "text"),
    Question(
        "stock", "What does your stock test on delivery, in % (several: 12.5, 10)?", "12.5", "list"
    ),
    Question("jug", "The smallest mark on your measuring jug, in gallons?", "1/4"),
    Question("rig", "What do you call your first rig?", "Rig 1", "text"),
    Question("kind", "Is it a trailer, a van or a truck?", "trailer", "text"),
    Question("tank", "How many gallons does its water tank hold?", "275"),
    Question("reserve", "How many of those do you never count on?", "25"),
    Question("gpm", "How many gallons a minute does its machine put out?", "5.5"),
    Question("psi", "At what pressure, in psi?", "3000"),
    Question("stock_tank", "How many gallons does its stock tank hold?", "60"),
    Question("chemical", "How many gallons a minute does its chemical pump put out?", "7"),
    Question("ladders", "Which ladders do you own, in feet (24, 28, 32)?", "24, 28", "list"),
)


def start(folder: Path, ask: Ask, say: Callable[[str], None]) -> Path:
    """Make a shop folder and return it. Raises Refusal when something stands there already.

    Nothing is written before every question is answered.
    """
    if folder.exists() and not folder.is_dir():
        raise Refusal(f"{folder} is a file", "name a new folder")
    if folder.exists() and any(folder.iterdir()):
        raise Refusal(f"{folder} is not empty", "name a new folder")
    answers = {question.key: _answer(question, ask, say) for question in QUESTIONS}
    try:
        _make(folder.resolve(), answers)
    except OSError as trouble:
        reason = (trouble.strerror or "it failed").lower()
        raise Refusal(f"{folder} can't be made: {reason}", "name another folder") from trouble
    return folder


def _make(folder: Path, answers: dict[str, str]) -> None:
    """Make the folder, or fill it where it is there and empty; whole, or not at all."""
    half = folder / ".part" if folder.exists() else folder.with_name(f".{folder.name}.part")
    shutil.rmtree(half, ignore_errors=True)
    try:
        shutil.copytree(starter(), half / "curriculum")
        shop = half / "curriculum" / "shop.yaml"
        shop.write_text(shop_text(shop.read_text("utf-8"), answers), "utf-8")
        (half / "build").mkdir()
        if half.parent == folder:  # somebody may stand in it: it stays, and is filled
            (half / "build").replace(folder / "build")
            (half / "curriculum").replace(folder / "curriculum")
            half.rmdir()
        else:
            half.replace(folder)
    except OSError:
        shutil.rmtree(half, ignore_errors=True)
        raise


def _answer(question: Question, ask: Ask, say: Callable[[str], None]) -> str:
    """What was typed, asked again until it can be used."""
    while True:
        typed = ask(question.text, question.default).strip()
        try:
            return _checked(question, typed)
        except Refusal as refusal:
            say(f"{refusal.what}: {refusal.next}")


def _checked(question: Question, typed: str) -> str:
    if question.key == "page" and typed.lower() not in ("letter", "a4"):
        raise Refusal(f'"{typed}" is no paper size', "type letter or a4")
    if question.kind == "text":
        if not typed or re.search(r"[\x00-\x1f]", typed):
            raise Refusal("a name is needed", "type one")
        if odd := lacking(typed):
            raise Refusal(f"the font of the pages has no {' '.join(odd)}", "leave it out")
        return typed.lower() if question.key == "page" else typed
    parts = typed.split(",") if question.kind == "list" else [typed]
    for part in parts:
        if exact.number(part) < 0 or (exact.number(part) == 0 and question.key != "reserve"):
            raise Refusal(f"{part} is not above 0", "type a number such as 12.5")
        if question.key == "stock" and exact.number(part) > STRONGEST_STOCK:
            raise Refusal(f"{part}% is stronger than any stock sold", "look at its certificate")
    return f"[{', '.join(part.strip() for part in parts)}]" if question.kind == "list" else typed


def shop_text(template: str, answers: dict[str, str]) -> str:
    """The commented shop.yaml of the starter with the owner's answers put in.

    The comments are kept, since they are what tells the owner how to go on.
    """
    text = template
    for key, value in (
        ("name", _quoted(answers["name"])),
        ("page", answers["page"]),
        ("stock", answers["stock"]),
        ("jug_mark_gal", answers["jug"]),
        ("ladders", answers["ladders"]),
    ):
        line = f"{key}: {value} ".replace("\\", r"\\")  # a replacement text reads backslashes
        text = re.sub(rf"(?m)^{key}:[^#\n]*", line, text, count=1)
    # Tests of somebody else's stock are only an example.
    text = re.sub(r"(?m)^stock_tests:\n((?:  - .*\n)+)", _commented, text)
    text = text.replace("# Larkspur Bend is invented. Its", "# The starter's")
    return re.sub(r"(?ms)^rigs:\n.*?(?=^\S)", lambda _: _rig_text(answers), text, count=1)


def _commented(found: re.Match[str]) -> str:
    return "".join(f"# {line}\n" for line in found[0].splitlines())


def _rig_text(answers: dict[str, str]) -> str:
    siphon = exact.decimal_text(exact.number(answers["gpm"]) / 9, 1)
    reserve = min(exact.number(answers["reserve"]), exact.number(answers["tank"]) * Fraction(9, 10))
    return f"""rigs:
  rig-1:
    name: {_quoted(answers["rig"])}
    kind: {_quoted(answers["kind"])}
    tank_gal: {answers["tank"]}
    reserve_gal: {exact.decimal_text(reserve, 2)}
    machine_gpm: {answers["gpm"]}
    machine_psi: {answers["psi"]}
    stock_tank_gal: {answers["stock_tank"]}
    chemical_gpm: {answers["chemical"]}
    siphon_gpm: {siphon}     # a guess from the machine: measure it by draw-down, then correct it
    hose_in: 3/8
    hose_ft: 200
    cleaner_in: 20
    # The lines below are examples: measure yours, and correct them.
    soft_hose_in: 1/2
    soft_hose_ft: 200
    pump_psi: 100
    pump_a: 14
    battery_ah: 100
    fuel_gal: 12
    fuel_gph: 1.8
    # gvwr_lb: 9900       # from the plate in the door frame; take the # away when you have it
    # empty_lb: 4300      # from a public scale, with gear, without water, stock and crew

"""


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
