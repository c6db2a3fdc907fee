"""The commands: arguments in, one job called, exit code out; nothing is decided here."""
