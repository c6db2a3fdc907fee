"""Actions, never-rules, procedures and their orders."""
