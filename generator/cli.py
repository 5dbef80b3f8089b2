"""The command line: global options, faults as words, exit codes, the menu.

Exit codes: 0 done, 1 faults or not done, 2 wrong use.
"""

from __future__ import annotations

import errno
import sys
from importlib import import_module
from io import TextIOWrapper
from keyword import iskeyword
from pathlib import Path
from typing import Any, NoReturn

import click

from generator import __version__
from generator.errors import Faults, Refusal, nearest
from generator.memory import collect_rarely

_COMMANDS = {  # name: the module of generator.commands that holds it
    "start": "desk",
    "check": "desk",
    "work": "desk",
    "problem": "desk",
    "demo": "desk",
    "build": "products",
    "booklet": "products",
    "sheet": "products",
    "paper": "papers",
    "grade": "marking",
    "signoff": "people",
    "crew": "people",
    "note": "notes",
    "void": "people",
    "board": "board",
    "person": "files",
    "card": "files",
    "due": "files",
    "brief": "files",
    "audit": "files",
    "tidy": "files",
    "stats": "numbers",
    "plan": "numbers",
    "backup": "keeping",
    "restore": "keeping",
    "export": "keeping",
    "import": "keeping",
}
_MENU = (  # what a person would say, and the words that do it; <…> is asked for
    ("Check the curriculum", "check"),
    ("Print everything that has changed", "build"),
    ("Print a booklet", "booklet <module>"),
    ("Print a form, a rig card or a leaflet", "sheet <its id>"),
    ("Print quiz papers for people", "paper <module> --for <names>"),
    ("Print practice papers", "paper <module> --practice --for <names>"),
    ("Print spare papers for the truck folder", "paper <module> --spare <how many>"),
    ("Mark a paper", "grade <code on the paper> --by <trainer>"),
    ("Sign a person off on a rig", "signoff <module> <name> --rig <rig> --by <trainer>"),
    ("Add people to the crew", "crew add <names>"),
    ("Show who may mix today", "board"),
    ("Show what is due", "due"),
    ("Print a person's file", "person <name>"),
    ("Show what to reteach first", "stats --pdf"),
    ("See how sure a pass is", "plan"),
    ("Make a backup of the record", "backup"),
    ("See the demo", "demo"),
)


class Rigprimer(click.Group):
    """Loads a command's module only when it is used, and turns faults into words."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands, in the order of use."""
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The command of that name, or None."""
        if name not in _COMMANDS:
            return None
        module = import_module(f"generator.commands.{_COMMANDS[name]}")
        command: click.Command = getattr(module, f"{name}_" if iskeyword(name) else name)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does it, offering the nearest name for an unknown one."""
        if args and args[0] not in _COMMANDS and not args[0].startswith("-"):
            ctx.fail(f'there is no command "{args[0]}": {nearest(args[0], _COMMANDS)}')
        return super().resolve_command(ctx, args)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; what can't be done is said in words, with exit code 1."""
        try:
            return super().invoke(ctx)
        except click.MissingParameter as missing:
            said = getattr(missing.param, "help", None)  # an option's own words say who or what
            raise click.MissingParameter(said, missing.ctx, missing.param) from missing
        except (Faults, Refusal) as trouble:
            self._stop(ctx, str(trouble))
        except KeyboardInterrupt:
            self._stop(ctx, "Stopped.")
        except click.Abort:  # in the middle of questions, which come before anything is written
            self._stop(ctx, "\nStopped at this question: nothing was written.")
        except OSError as error:
            if error.errno == errno.EPIPE:  # the reader of what we say has gone
                raise
            self._stop(ctx, _system_words(error))

    def _stop(self, ctx: click.Context, said: str) -> NoReturn:
        click.echo(said, err=True)
        ctx.exit(1)


def _system_words(error: OSError) -> str:
    """What the system refused, where nobody nearer to it had words of his own."""
    where = f"{error.filename}: " if error.filename else ""
    reason = (error.strerror or "the system refused it").lower()
    return f"{where}{reason} — check the disk and who may read and write there"


@click.group(
    cls=Rigprimer,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="rigprimer")
@click.option("--curriculum", type=click.Path(path_type=Path), help="Folder with the lessons.")
@click.option("--records", type=click.Path(path_type=Path), help="File with the records.")
@click.option("--out", type=click.Path(path_type=Path), help="Folder for what is printed.")
@click.pass_context
def run(
    ctx: click.Context, curriculum: Path | None, records: Path | None, out: Path | None
) -> None:
    """Train a washing crew: booklets, quiz papers with computed answers, and who may mix.

    Without a command a numbered menu is shown.
    """
    from generator.commands.warnings import show_warnings
    from generator.workflows.place import find_place

    collect_rarely()
    say_what_can_be_said()
    show_warnings()
    ctx.obj = find_place(curriculum, records, out)
    if ctx.invoked_subcommand is None:
        _menu(ctx)


def say_what_can_be_said() -> None:
    """A letter that the screen's encoding lacks comes as "?", and stops nothing."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")


def _menu(ctx: click.Context) -> None:
    """Ask what to do, by number, then for each thing that is needed."""
    click.echo("Rigprimer. What would you like to do?\n")
    for number, (text, words) in enumerate(_MENU, 1):
        click.echo(f"  {number:>2}  {text:42}rigprimer {words}")
    click.echo("\nAll commands: rigprimer --help")
    if not sys.stdin.isatty():
        return
    number = click.prompt("Number", type=click.IntRange(1, len(_MENU)))
    given = [f"--{name}={path}" for name, path in ctx.params.items() if path]
    run.main([*given, *_asked(_MENU[number - 1][1])], prog_name="rigprimer", standalone_mode=True)


def _asked(words: str) -> list[str]:
    """The words of a menu line, with what stands in <…> asked for."""
    arguments: list[str] = []
    for part in words.replace("<", "\0<").replace(">", ">\0").split("\0"):
        if part.startswith("<"):
            arguments += _answers(part[1:-1])
        else:
            arguments += part.split()
    return arguments


def _answers(wanted: str) -> list[str]:
    """What is answered: of names several, with a comma between; of a rig perhaps nothing."""
    if wanted == "names":
        said = click.prompt("Names, with a comma between")
        return [name.strip() for name in said.split(",") if name.strip()]
    if wanted == "rig":
        return [click.prompt("Rig, empty where none matters", default="", show_default=False)]
    return [click.prompt(wanted.capitalize())]
