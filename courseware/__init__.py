"""Train, test and certify service technicians for used-oil-fired shop heaters."""

from typing import Final

__version__: Final = "0.1.0"
