"""Item kinds, scenario and calculation makers, blueprints, forms, sealed keys."""
