"""Print the one fenced command under a heading of README.md: what CI runs is what the README says."""

import re
import sys
from pathlib import Path


def command_under(readme: str, heading: str) -> str:
    """Return the text of the first fenced block under ``## heading``."""
    found = re.search(rf"^## {re.escape(heading)}$.*?^```sh\n(.*?)^```$", readme, re.MULTILINE | re.DOTALL)
    if found is None:
        message = f"README.md has no fenced command under '## {heading}'"
        raise SystemExit(message)
    return found.group(1)


if __name__ == "__main__":
    sys.stdout.write(command_under(Path("README.md").read_text(encoding="utf-8"), sys.argv[1]))
