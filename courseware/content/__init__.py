"""YAML and Markdown read with file:line on every value; problems collected and shown together."""
