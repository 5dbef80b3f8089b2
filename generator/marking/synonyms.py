"""What people write for a word answer, in English and Spanish.

All is folded: no accents, apostrophes or capitals. The word itself need not be listed.
"""

from __future__ import annotations

_LISTS = {
    "never": "never runs out, never run out, never ends, never empties, never empty, "
    "never runs dry, never run dry, never goes dry, never dry, never will, will never run out, "
    "will never run dry, will never empty, wont run out, will not run out, doesnt run out, "
    "does not run out, cant run out, cannot run out, can not run out, wont run dry, "
    "will not run dry, doesnt run dry, does not run dry, cant run dry, cannot run dry, "
    "wont empty, doesnt empty, forever, for ever, infinite, infinity, not ever, "
    "nunca, jamas, nunca se acaba, nunca se acabara, nunca se vacia, nunca se seca, no se acaba, "
    "no se acabara, no se vacia, no se agota, no se seca, para siempre, infinito",
    "cannot": "can not, cant, cannot do, cant do, can not do, no can do, impossible, not possible, "
    "is not possible, isnt possible, wont work, will not work, doesnt work, does not work, "
    "no way, unable, no se puede, no se puede hacer, no puede, no se logra, imposible, "
    "no es posible, no es possible",
    "too-strong": "demasiado fuerte, muy fuerte, demasiada fuerte",
    "start-now": "start at once, start immediately, start right away, now, right now, right away, "
    "at once, immediately, no wait, no waiting, dont wait, do not wait, need not wait, "
    "no need to wait, can start now, go now, ya, ahora, ahorita, ahora mismo, empezar ya, "
    "empieza ya, empezar ahora, empieza ahora, sin esperar, no esperar, no hay que esperar",
    "none": "none fits, none fit, none will fit, none of them, no ladder, no ladder fits, nothing, "
    "nothing left, none left, no water, no water left, "
    "ninguna, ninguno, ninguna escalera, ninguna alcanza, nada, no queda, no queda nada",
    "none-left": "none, nothing left, nothing, no time, no time left, no minutes left, "
    "no more time, time used up, all used up, used up, out of time, "
    "nada, ninguno, no queda, no queda nada, no queda tiempo, se acabo el tiempo, ya no queda",
    "may-go": "can go, good to go, ok to go, okay to go, allowed to go, yes may go, yes can go, "
    "ready to go, puede ir, puede salir, puede irse, si puede ir, si puede salir",
    "no-placard": "no placard needed, no placard required, no placards, no placards needed, "
    "none needed, not placarded, without placard, does not need placard, doesnt need placard, "
    "doesnt need placards, no needs placard, no need placard, "
    "sin placa, sin placas, sin letrero, no necesita placa, no necesita letrero, no placa",
    "placard": "placards, placard needed, placard required, placards needed, needs placard, "
    "needs placards, need placard, must placard, must be placarded, placarded, "
    "placa, placas, letrero, necesita placa, necesita letrero, con placa",
    "bulk-tank": "bulk, tanque a granel, granel, tank is bulk",
    "load-too-heavy": "too heavy, load over, over the load, whole load too heavy, "
    "all together too heavy, total too heavy, demasiado pesado, demasiado pesada, muy pesado, "
    "muy pesada, demasiada carga, carga muy pesada, carga demasiado pesada",
    "package-too-big": "too big, too large, package too large, one package too big, "
    "container too big, jug too big, demasiado grande, muy grande, paquete muy grande, "
    "paquete demasiado grande, envase muy grande",
    "overloaded": "over loaded, overload, over load, too heavy, overweight, over weight, "
    "over the limit, too much weight, sobrecargado, sobrecargada, sobrecarga, muy pesado, "
    "muy pesada, demasiado pesado, demasiado peso, sobrepeso",
    "climb": "ok to climb, okay to climb, can climb, may climb, yes climb, safe to climb, go up, "
    "subir, sube, puede subir, si subir, si puede subir",
    "do-not-climb": "dont climb, no climb, no climbing, not climb, never climb, must not climb, "
    "may not climb, can not climb, cannot climb, cant climb, stay off, stay down, "
    "no subir, no sube, no subas, no se sube, no puede subir",
    "at-the-limit": "at limit, on the limit, right at the limit, exactly at the limit, "
    "just at the limit, en el limite, al limite, justo en el limite",
    "over-ceiling": "over the ceiling, above the ceiling, above ceiling, past the ceiling, "
    "past ceiling, passes the ceiling, exceeds ceiling, exceeds the ceiling, ceiling, "
    "over the limit, sobre el techo, pasa el techo, pasa del techo, arriba del techo, "
    "pasa el limite, sobre el limite",
    "too-much": "demasiado, demasiada, demasiada agua, mucho, mucha agua, too much water, "
    "too much to drink",
    "stop": "stop now, stop work, stop working, must stop, quit, done for today, "
    "alto, parar, pare, para, parar ya, ya parar, detener, detenerse, deja de trabajar",
    "full-shift": "full shifts, full day, whole shift, whole day, all shift, all day, "
    "turno completo, turno entero, jornada completa, dia completo, todo el turno, todo el dia",
    "refill-first": "fill first, refill, refill now, fill up first, refill before, fill it first, "
    "get water first, must refill, need to refill, "
    "llenar primero, llena primero, rellenar primero, rellena primero, llenar antes, rellenar",
    "call-now": "call, call at once, call right now, call right away, call immediately, "
    "must call now, llamar ya, llame ya, llama ya, llamar ahora, llame ahora, llama ahora, llamar",
    "dry": "runs dry, run dry, goes dry, gone dry, tank dry, empty, runs out, "
    "seco, seca, se seca, tanque seco, vacio, vacia, queda seco, queda vacio",
    "wrong-column": "other column, not this column, columna equivocada, otra columna, columna mala",
    "too-thin": "hose too thin, too narrow, too small, muy delgada, demasiado delgada, "
    "muy delgado, muy angosta, manguera muy delgada, demasiado angosta",
    "ground-only": "only ground, only on the ground, on the ground only, "
    "only on level ground, level ground only, only level ground, not up high, "
    "solo en el suelo, solo suelo, solo en el piso, solo piso, nada mas en el suelo",
    "will-do": "does it, it does, will work, works, enough, it is enough, strong enough, "
    "alcanza, si alcanza, sirve, si sirve, funciona, es suficiente, suficiente",
    "charge-first": "recharge first, charge, charge it first, charge before, charge now, "
    "must charge, recharge, cargar primero, carga primero, recargar primero, cargar antes",
}

SYNONYMS = {word: tuple(texts.split(", ")) for word, texts in _LISTS.items()}
"""Phrases for each word answer."""

NOUGHT = frozenset(
    {"none", "none-left", "start-now", "dry", "too-strong", "refill-first", "call-now", "stop"}
)
"""Words which somebody may mean who writes a nought: no time left, no wait, nothing to add."""
