"""Combustion, nozzle, draft, spark, circuits: SI floats in and out."""
