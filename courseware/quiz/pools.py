"""Practice and graded questions never meet: a question belongs to one pool, whatever template draws it.

For questions drawn from a large space (readings, numbers, sets of steps) the pool follows from the question
itself, by a hash, so the two pools are disjoint by construction. Questions that an author lists are held apart when
they are loaded.
"""

import hashlib
from typing import Final

PRACTICE: Final = "practice"
GRADED: Final = "graded"
POOLS: Final = (PRACTICE, GRADED)

_PRACTICE_OF_256: Final = 64


def pool_of(identity: str) -> str:
    """Return the pool that a question belongs to: about one in four is for practice.

    Parameters
    ----------
    identity : str
        What makes it this question and no other.
    """
    return PRACTICE if hashlib.sha256(identity.encode("utf-8")).digest()[0] < _PRACTICE_OF_256 else GRADED
