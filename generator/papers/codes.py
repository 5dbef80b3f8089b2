"""Paper codes: short, easy to read aloud, with a check character.

Five drawn characters and a check character by ISO/IEC 7064 (hybrid system, here MOD 31,30), over
letters and digits that can't be taken for one another. The check character tells every single
mistyped one and nearly every swap of two neighbours; codes with a swap that it would miss are
never given out. A code is drawn apart from the paper's seed, so it gives nothing away.
"""

from __future__ import annotations

import secrets
from collections.abc import Container

from stdnum.iso7064 import mod_37_36

from generator.errors import Refusal

ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"  # no 0 O, 1 I L, U V
_DRAWN = 5
_BETWEEN = str.maketrans("", "", "-–—._")


def new_code(used: Container[str]) -> str:
    """A code not in `used`, such as "K7M-2QF"."""
    while True:
        drawn = "".join(secrets.choice(ALPHABET) for _ in range(_DRAWN))
        plain = drawn + mod_37_36.calc_check_digit(drawn, ALPHABET)
        if _shown(plain) not in used and not _survives_a_swap(plain):
            return _shown(plain)


def read_code(text: str) -> str:
    """The code a person typed, as printed. Raises Refusal when it can't be one."""
    plain = "".join(text.split()).translate(_BETWEEN).upper()
    odd = sorted(set(plain) - set(ALPHABET))
    if odd or len(plain) != _DRAWN + 1:
        raise Refusal(
            f'"{text}" is not a paper code',
            "type the six letters and digits printed at the top of the paper"
            + (f"; {', '.join(odd)} is never one of them" if odd else ""),
        )
    if not mod_37_36.is_valid(plain, ALPHABET):
        raise Refusal(f'"{text}" has a mistyped character', "read the code from the paper again")
    return _shown(plain)


def _survives_a_swap(plain: str) -> bool:
    """Whether two different neighbours can change places unnoticed."""
    swaps = (
        plain[:place] + plain[place + 1] + plain[place] + plain[place + 2 :]
        for place in range(len(plain) - 1)
    )
    return any(mod_37_36.is_valid(swap, ALPHABET) for swap in swaps if swap != plain)


def _shown(plain: str) -> str:
    return f"{plain[:3]}-{plain[3:]}"
