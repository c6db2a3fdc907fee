"""Units of measurement: pint inside, imported when first needed."""


def to_si(value: float, unit: str) -> float:
    """Return a value [unit] in SI."""
    raise NotImplementedError


def from_si(value: float, unit: str) -> float:
    """Return an SI value in the unit."""
    raise NotImplementedError


def parse(text: str) -> tuple[float, str]:
    """Return number and unit of a text such as ``8.3 kV``."""
    raise NotImplementedError


def show(value_si: float, unit: str, digits: int) -> str:
    """Return an SI value written in the unit with ``digits`` decimals: ``8.3 kV``."""
    raise NotImplementedError
