"""The message catalogue: every word of the interface that a person sees.

The words live in ``en/<room>.toml`` beside this module, one file a room, so that a company
can read, correct or translate them in one place. :func:`say` looks a message up by
``room.key`` and fills in its values.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Final

_ENGLISH: Final = Path(__file__).parent / "en"


@cache
def _room(room: str) -> dict[str, str]:
    text = (_ENGLISH / f"{room}.toml").read_text(encoding="utf-8")
    return {key: str(value) for key, value in tomllib.loads(text).items()}


def say(key: str, /, **values: object) -> str:
    """Return the message ``room.key`` with its values filled in.

    Parameters
    ----------
    key : str
        ``room.key``: the file of the catalogue, and the key in it.
    values : object
        Values for the ``{name}`` fields of the message.

    Returns
    -------
    str
        The words to show.

    Raises
    ------
    KeyError
        If the catalogue has no such message or a value is missing: our fault, not the user's.
    """
    room, _, name = key.partition(".")
    return _room(room)[name].format(**values)


def catalogue(room: str) -> dict[str, str]:
    """Return all messages of one room, unfilled; page templates receive it whole."""
    return dict(_room(room))
