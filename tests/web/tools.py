"""The tools that the page checks stand on. One that is missing fails the test; it is never a reason to skip."""

import json
import shutil
from pathlib import Path
from typing import Final

HERE: Final = Path(__file__).parent
INSTALL: Final = "bash tests/web/install.sh"
CHROMIUM: Final = Path("/usr/bin/chromium")
AXE: Final = HERE / "node_modules/axe-core/axe.min.js"
NU: Final = HERE / "node_modules/vnu-jar/build/dist/vnu.jar"


class ToolMissingError(AssertionError):
    """A tool is not where it should be: a failure of the test, with the command that installs it."""

    def __init__(self, tool: str, place: str) -> None:
        super().__init__(f"{tool} was not found ({place}); install what the tests need: {INSTALL}")


def found(tool: str, path: Path) -> Path:
    """Return the path of a tool's file, or raise :class:`ToolMissingError`."""
    if not path.is_file():
        raise ToolMissingError(tool, str(path))
    return path


def command(name: str) -> str:
    """Return the full path of a command, or raise :class:`ToolMissingError`."""
    path = shutil.which(name)
    if path is None:
        raise ToolMissingError(name, "not on PATH")
    return path


def npm_package(name: str) -> Path:
    """Return the folder of an installed npm package, whose version must be the one in package.json."""
    wanted = json.loads((HERE / "package.json").read_text(encoding="utf-8"))["dependencies"][name]
    description = found(name, HERE / "node_modules" / name / "package.json")
    installed = json.loads(description.read_text(encoding="utf-8"))["version"]
    if installed != wanted:
        raise ToolMissingError(f"{name} {wanted}", f"{installed} is installed")
    return description.parent
