"""Signatures, exact inference, proofs, explanations, next best check."""
