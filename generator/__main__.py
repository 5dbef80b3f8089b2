"""`rigprimer`, which is also `python -m generator`."""

import sys


def main() -> None:
    """Run the command line; Ctrl-C is answered in words while it is still being loaded."""
    try:
        from generator.cli import run

        run(prog_name="rigprimer")
    except KeyboardInterrupt:
        sys.exit("Stopped.")


if __name__ == "__main__":
    main()
