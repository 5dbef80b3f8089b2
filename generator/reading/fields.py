"""The kinds of value a field of a file may want; each turns text into it, or says why not."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date
from fractions import Fraction
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, PlainValidator, StringConstraints
from pydantic_core import PydanticCustomError

from generator.errors import Refusal
from generator.maths import exact

_ID = "[a-z0-9][a-z0-9_-]{0,39}"
_YES, _NO = {"yes", "true", "on"}, {"no", "false", "off"}


def _refused(refusal: Refusal) -> PydanticCustomError:
    return PydanticCustomError("refusal", "{what}", {"what": refusal.what, "next": refusal.next})


def _number(value: Any) -> Fraction:
    try:
        return exact.number(value if isinstance(value, str) else "")
    except Refusal as refusal:
        raise _refused(refusal) from refusal


def _share(value: Any) -> Fraction:
    percent = isinstance(value, str) and value.rstrip().endswith("%")
    number = _number(value.rstrip()[:-1]) / 100 if percent else _number(value)
    if not 0 <= number < 1:
        raise _refused(Refusal(f'"{value}" is not a share of a whole', "write it like 30%"))
    return number


def _whole(value: Any) -> int:
    if isinstance(value, str) and re.fullmatch(r"\d{1,9}", value):
        return int(value)
    raise _refused(Refusal(f'"{value}" is not a whole number', "write it like 3"))


def _at_most(most: int) -> AfterValidator:
    def checked(value: int) -> int:
        if value > most:
            raise _refused(Refusal(f"{value} is more than {most}", "write a smaller number"))
        return value

    return AfterValidator(checked)


def _flag(value: Any) -> bool:
    word = value.lower() if isinstance(value, str) else ""
    if word in _YES | _NO:
        return word in _YES
    raise _refused(Refusal(f'"{value}" is neither yes nor no', "write yes or no"))


def _day(value: Any) -> str:
    with suppress(ValueError):
        if isinstance(value, str):
            return date.fromisoformat(value).isoformat() if value else ""
    raise _refused(Refusal(f'"{value}" is not a date', "write it like 2026-05-04"))


def _one_or_many(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


def require_id(name: str) -> None:
    """Raises Refusal unless a name of a file, or of an entry in one, may serve as an id."""
    if not re.fullmatch(_ID, name):
        raise Refusal(f'"{name}" is not a plain name', "use small letters, digits, -")


Number = Annotated[Fraction, PlainValidator(_number)]
Share = Annotated[Fraction, PlainValidator(_share)]
Whole = Annotated[int, PlainValidator(_whole)]
Count = Annotated[Whole, _at_most(99)]
Days = Annotated[Whole, _at_most(36_500)]  # a hundred years: a calendar has an end
Day = Annotated[str, PlainValidator(_day)]  # "" or an ISO date
Flag = Annotated[bool, PlainValidator(_flag)]
Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
Blank = Annotated[str, StringConstraints(strip_whitespace=True)]  # may be empty
Id = Annotated[str, StringConstraints(pattern=f"^{_ID}$")]
NameText = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_]{0,29}$")]
Values = Annotated[list[Text], BeforeValidator(_one_or_many)]
