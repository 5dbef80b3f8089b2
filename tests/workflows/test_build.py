"""Build: everything once, then only what has changed; every file whole whatever happens."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

from generator.errors import Faults, Refusal
from generator.workflows.build import KINDS, build
from generator.workflows.manifest import NAME
from generator.workflows.place import starter
from generator.workflows.sources_of import Part, Snapshot, parts_of

QUICK = ("sheets", "sign-offs", "cards", "guides")


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory, part_of_starter: Callable[..., Path]) -> Path:
    """A shop of one module and three sheets, built once."""
    folder = tmp_path_factory.mktemp("built")
    part_of_starter(folder / "curriculum", "welcome")
    for sheet in (folder / "curriculum" / "sheets").iterdir():
        if sheet.stem not in ("mix-log", "season-plan", "owner-checklist"):
            sheet.unlink()
    build(folder / "curriculum", folder / "build", QUICK)
    return folder


@pytest.fixture
def shop(built: Path, tmp_path: Path) -> Path:
    """A copy of the built shop to change."""
    return Path(shutil.copytree(built, tmp_path / "shop"))


def again(shop: Path, *what: str) -> list[str]:
    """What a further build prints."""
    return sorted(build(shop / "curriculum", shop / "build", what or QUICK).printed)


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_the_first_build_prints_everything(built: Path) -> None:
    done = build(built / "curriculum", built / "build", QUICK)

    assert set(done.made) == {
        "mix-log",
        "season-plan",
        "owner-checklist",
        "safety-figures",
        "signoff-welcome",
        "guide-welcome",
        "card-rig-1",
        "card-rig-2",
    }
    for made in done.made.values():
        for file in made.files:
            with pikepdf.open(built / "build" / file.name) as pdf:
                assert len(pdf.pages) == file.pages
    assert done.pages == sum(file.pages for made in done.made.values() for file in made.files)


def test_a_second_build_prints_nothing(shop: Path) -> None:
    assert again(shop) == []


def test_when_nothing_has_changed_nothing_is_parsed(shop: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from generator.workflows.build import build;"
        f"done = build(Path('curriculum'), Path('build'), {QUICK!r});"
        "print(len(done.made), done.printed, 'pydantic' in sys.modules, 'sympy' in sys.modules)"
    )
    env = os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])}
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=shop,
        env=env,
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout == "8 [] False False\n"


def test_a_changed_lesson_touches_only_what_says_it(shop: Path) -> None:
    lesson = shop / "curriculum" / "modules" / "welcome" / "truck-map.yaml"
    change(lesson, "Hands off the valves.", "Keep your hands off the valves.")
    change(lesson, "It is only a small valve.", "It is just a small valve.")

    assert again(shop) == ["guide-welcome"]  # the sign-off sheet does not say it


def test_a_number_of_a_lesson_reaches_the_list_of_figures(shop: Path) -> None:
    lesson = shop / "curriculum" / "modules" / "welcome" / "morning-check.yaml"
    change(lesson, "10 seconds", "9 seconds")

    assert "safety-figures" in again(shop)


def test_a_comment_prints_nothing(shop: Path) -> None:
    with (shop / "curriculum" / "shop.yaml").open("a", encoding="utf-8") as file:
        file.write("\n# a note to myself\n")

    assert again(shop) == []


def test_a_stronger_wash_prints_the_cards(shop: Path) -> None:
    change(shop / "curriculum" / "shop.yaml", "strength: 3", "strength: 2.5")

    assert again(shop) == ["card-rig-1", "card-rig-2"]


def test_a_new_rig_prints_its_card_and_the_sheets_that_name_the_rigs(shop: Path) -> None:
    text = (shop / "curriculum" / "shop.yaml").read_text("utf-8")
    rig = text[text.index("  rig-2:") : text.index("# The ladders")].rstrip()
    third = rig.replace("rig-2", "rig-3").replace("Rig 2", "Rig 3")
    (shop / "curriculum" / "shop.yaml").write_text(text.replace(rig, f"{rig}\n{third}"), "utf-8")

    assert "card-rig-3" in again(shop, "cards", "sheets")
    assert (shop / "build" / "cards" / "rig-3-card.pdf").exists()


@pytest.mark.parametrize("spoil", ["remove", "overwrite"])
def test_a_file_that_is_not_as_it_was_is_printed_again(spoil: str, shop: Path) -> None:
    file = shop / "build" / "sheets" / "mix-log.pdf"
    whole = file.read_bytes()
    if spoil == "remove":
        file.unlink()
    else:
        file.write_bytes(whole[:-100])

    assert again(shop) == ["mix-log"]
    assert file.read_bytes() == whole


@pytest.mark.parametrize("manifest", ["", "{", "[]", '{"form": 99, "parts": {}}'])
def test_without_a_manifest_that_can_be_read_all_is_printed_again(
    manifest: str, shop: Path
) -> None:
    (shop / "build" / NAME).write_text(manifest)

    assert again(shop, "guides", "sign-offs") == ["guide-welcome", "signoff-welcome"]


def test_a_part_build_leaves_the_rest_known(shop: Path) -> None:
    change(shop / "curriculum" / "sheets" / "mix-log.yaml", "Mix log", "Log of mixes")

    assert again(shop, "cards") == []
    assert again(shop, "sheets") == ["mix-log"]
    assert again(shop) == []


def test_a_fault_is_told_and_nothing_is_touched(shop: Path) -> None:
    before = {path: path.read_bytes() for path in (shop / "build").rglob("*") if path.is_file()}
    change(shop / "curriculum" / "sheets" / "mix-log.yaml", "rows: 12", "rows: many")

    with pytest.raises(Faults, match='"many" is not a whole number'):
        again(shop)
    after = {path: path.read_bytes() for path in (shop / "build").rglob("*") if path.is_file()}
    assert after == before


def test_a_figure_that_cannot_be_drawn_is_a_fault_with_its_place(shop: Path) -> None:
    leaflet = shop / "curriculum" / "first-day.yaml"
    change(leaflet, "figure: upwind", "figure: upwnd")

    with pytest.raises(Faults) as faults:
        again(shop, "leaflet")
    (fault,) = faults.value.faults
    assert fault.file == "curriculum/first-day.yaml"
    assert 'the figure "upwnd" is not known' in fault.what
    assert fault.next == 'did you mean "upwind"?'
    assert not (shop / "build" / "first-day.pdf").exists()


def test_an_unknown_kind_is_refused(shop: Path) -> None:
    with pytest.raises(Refusal, match='"bookets" is not printed by build') as refusal:
        again(shop, "bookets")
    assert refusal.value.next == 'did you mean "booklets"?'


def test_the_leaflet_comes_with_its_copy_for_folding(shop: Path) -> None:
    done = build(shop / "curriculum", shop / "build", ("leaflet",))

    (made,) = done.made.values()
    assert [(file.name, file.pages) for file in made.files] == [
        ("first-day.pdf", 8),
        ("first-day-fold.pdf", 4),
    ]


def test_a_booklet_for_the_phone_is_one_file_that_fetches_nothing(shop: Path) -> None:
    done = build(shop / "curriculum", shop / "build", ("phone",))

    (made,) = done.made.values()
    assert [(file.name, file.pages) for file in made.files] == [("phone/welcome.html", 0)]
    html = (shop / "build" / "phone" / "welcome.html").read_text("utf-8")
    assert 'name="viewport"' in html
    assert [src for src in re.findall(r'src="([^"]{10})', html) if src != "data:image"] == []


def test_a_leaflet_that_runs_over_its_pages_is_refused(shop: Path) -> None:
    more = "      - {en: One line more, es: Una línea más}\n" * 2
    leaflet = shop / "curriculum" / "first-day.yaml"
    line = '      - {en: "Ask why afterwards.", es: "Pregunte después por qué."}\n'
    change(leaflet, line, line + more)

    with pytest.raises(Refusal, match="Leaflet of the first day: it comes to 9 pages, 8 at most"):
        again(shop, "leaflet")
    assert not (shop / "build" / "first-day.pdf").exists()


@pytest.mark.usefixtures("ctrl_c_is_heard")
def test_stopped_by_ctrl_c_every_file_is_whole_and_the_next_build_goes_on(shop: Path) -> None:
    shutil.rmtree(shop / "build")
    command = [sys.executable, "-m", "generator", "build", *QUICK]
    env = os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])}
    process = subprocess.Popen(
        command, cwd=shop, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        start_new_session=True,
    )  # fmt: skip
    deadline = time.monotonic() + 60
    while not list((shop / "build").rglob("*.pdf")) and time.monotonic() < deadline:
        time.sleep(0.05)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: every process of it hears it
    _, errors = process.communicate(timeout=60)

    assert process.returncode in (0, 1)
    assert "Traceback" not in errors.decode()
    assert [path.name for path in (shop / "build").rglob("*.part")] == []
    whole = list((shop / "build").rglob("*.pdf"))
    for path in whole:
        with pikepdf.open(path) as pdf:
            assert len(pdf.pages)
    done = build(shop / "curriculum", shop / "build", QUICK)
    assert len(done.made) == 8
    again = len(whole) + len(done.printed) - 8
    assert again == 0 or (again == 1 and "card-rig-1" in done.printed)  # the two cards go together


def test_a_booklet_hangs_on_the_titles_of_the_modules_passed_first(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(starter(), tmp_path / "curriculum"))
    booklet, guide = (Part(kind, "card", "modules/card/") for kind in ("booklets", "guides"))
    before = Snapshot(folder)
    change(folder / "modules" / "gear" / "module.yaml", "short: gear", "short: rig")
    same = Snapshot(folder)
    change(folder / "modules" / "gear" / "module.yaml", 'title: "', 'title: "New: ')
    after = Snapshot(folder)

    assert before.key(booklet) == same.key(booklet) != after.key(booklet)
    assert before.key(guide) == after.key(guide)


def test_every_kind_is_known_to_the_parts() -> None:
    assert {part.kind for part in parts_of(starter())} == set(KINDS)
