"""Words of every day that stand around a number, and what they do to it."""

from __future__ import annotations

import re
from functools import lru_cache

from generator.marking.text import fold, listed

# Words that change nothing about a number. None of them counts, compares, halves or denies.
QUIET = listed(
    "a an the of is are be it its that this so we i you they my our there here just only "
    "exactly exact please about around approx approximately roughly circa ca answer ans result "
    "equals equal makes make gives get gets should would must total all use using measure pour "
    "put add need needs needed takes take run runs wait will last lasts for with to on from "
    "into left more think creo long high tall wide deep out away back strong strength size tip "
    "nozzle number mix mixture batch bleach stock chlorine sh hypo hypochlorite water soap "
    "surfactant solution wash rinse cost costs price "
    "r resp se de del la el los las es son lo que esta unos unas cerca aprox aproximadamente "
    "exactamente redondeado respuesta resultado medir mide usar usa uso poner pon pongo echar echa "
    "echo agregar agrega necesita necesito hay seria dura en con da sale quedan queda fuerza "
    "fuerte largo alto ancho afuera numero mezcla agua cloro jabon solucion costo cuesta precio"
)

# What is counted or holds something. Beside a number without a unit it is the unit: "3 parts".
COUNTED = listed(
    "tank tanks jug jugs bucket buckets part parts pass passes coat coats job jobs package "
    "packages load loads cone cones ladder ladders people person persons house houses bottle "
    "bottles tanque tanques balde baldes cubeta cubetas parte partes pasada pasadas capa capas "
    "trabajo trabajos paquete paquetes cono conos escalera escaleras persona personas"
)

RATIO = frozenset({"ratio", "razon", "proporcion"})

_WATER = "water agua"
_STOCK = "stock bleach chlorine hypo hypochlorite sh cloro"
_THINGS = {
    word: words
    for words in (_WATER, _STOCK, "soap surfactant jabon", "mix mixture batch mezcla")
    for word in words.split()
}
_MADE = _THINGS["mix"]  # everything goes into it, so that naming it says little
_QUESTION = re.compile(r"(?:[^.?!¿]|\.(?=\d))*\?")
_HOW_MUCH = re.compile(r".*\b(?=how\b|cu[aá]nt)", re.IGNORECASE | re.DOTALL)
WATER, STOCK = listed(_WATER), listed(_STOCK)


def another_thing(ask: str, written: str) -> str:
    """A thing which `written` names though the question of `ask` is about others, or "".

    >>> another_thing("Make 30 gal. How much stock do you measure?", "27 gal water")
    'water'
    """
    asked = _asked(ask)
    named = {_THINGS[word]: word for word in fold(written).split() if word in _THINGS}
    strange = named.keys() - asked - {_MADE}
    if not asked or not strange or asked & (named.keys() - {_MADE}):
        return ""
    return named[min(strange)]


@lru_cache(maxsize=1024)
def _asked(ask: str) -> frozenset[str]:
    """The things that the questions of a text name, from "how much" on where it says so."""
    questions = (_HOW_MUCH.sub("", question) for question in _QUESTION.findall(ask))
    words = fold(" ".join(questions)).split()
    return frozenset(_THINGS[word] for word in words if word in _THINGS)
