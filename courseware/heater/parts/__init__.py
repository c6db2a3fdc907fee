"""The part kinds. A new kind is one file here, one entry below, and a test file of the same name."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from courseware.heater.parts.base import PartKind

_KINDS: Final[tuple[PartKind, ...]] = ()

PART_KINDS: Final[Mapping[str, PartKind]] = MappingProxyType({kind.name: kind for kind in _KINDS})
