"""The words of numbers, in English and Spanish, folded."""

from __future__ import annotations

Piece = tuple[str, str]
"""The kind of a piece ("number", "part", "word" or "sign") and what it says."""


def _counted(words: str, first: int = 0, step: int = 1) -> dict[str, int]:
    """The words of a list, each worth `step` more; a / stands between words of equal worth."""
    rows = enumerate(words.split())
    return {word: first + place * step for place, row in rows for word in row.split("/")}


ONES = _counted(
    "zero/cero one/un/uno/una two/dos three/tres four/cuatro five/cinco six/seis seven/siete "
    "eight/ocho nine/nueve ten/diez eleven twelve/doce thirteen/trece fourteen/catorce "
    "fifteen/quince sixteen/dieciseis seventeen/diecisiete eighteen/dieciocho "
    "nineteen/diecinueve"
) | _counted(
    "veintiun/veintiuno/veintiuna veintidos veintitres veinticuatro veinticinco veintiseis "
    "veintisiete veintiocho veintinueve",
    21,
)
TENS = _counted(
    "twenty/veinte thirty/treinta forty/cuarenta fifty/cincuenta sixty/sesenta "
    "seventy/setenta eighty/ochenta ninety/noventa",
    20,
    10,
)
HUNDREDS = _counted(
    "cien/ciento doscientos/doscientas trescientos/trescientas cuatrocientos/cuatrocientas "
    "quinientos/quinientas seiscientos/seiscientas setecientos/setecientas "
    "ochocientos/ochocientas novecientos/novecientas",
    100,
    100,
)

HALF = "half medio media"
PARTS = {
    word: bottom
    for bottom, words in {
        2: HALF,
        3: "third thirds tercio tercios",
        4: "quarter quarters fourth fourths cuarto cuartos cuarta cuartas",
        5: "fifth fifths quinto quintos quinta quintas",
        6: "sixth sixths sexto sextos",
        8: "eighth eighths octavo octavos",
        10: "tenth tenths decimo decimos decima decimas",
    }.items()
    for word in words.split()
}
