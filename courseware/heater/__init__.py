"""Part behaviours, unit profiles, fault modes, sequence of operation, checks and readings."""
