"""`python -m generator` is `rigprimer`."""

from generator.cli import run

if __name__ == "__main__":
    run(prog_name="rigprimer")
