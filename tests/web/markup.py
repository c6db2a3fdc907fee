"""HTML held against the standard by the Nu checker, and every local link followed."""

import json
import subprocess
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from tests.web.report import Report
from tests.web.tools import NU, command, found, npm_package


def check_markup(folder: Path) -> Report:
    """Run the Nu HTML checker over every page of a folder, its subfolders included.

    Parameters
    ----------
    folder : Path
        Holds ``*.html`` files; other files are left alone.

    Returns
    -------
    Report
        Errors and warnings, with file and line.
    """
    npm_package("vnu-jar")
    jar = found("vnu-jar", NU)
    # With --verbose the checker names each file it has read: that, not the list it was given, is what was seen.
    pages = [str(page) for page in html_pages(folder)]
    if not pages:
        return Report((), ())
    arguments = [command("java"), "-jar", str(jar), "--verbose", "--format", "json", *pages]
    run = subprocess.run(arguments, capture_output=True, text=True, check=False, timeout=120)  # noqa: S603 (fixed program)
    seen = tuple(sorted(Path(line) for line in run.stdout.splitlines() if line.endswith(".html")))
    messages = json.loads(run.stderr)["messages"]
    return Report(seen, tuple(f"{Path(_file(m)).name}:{m.get('lastLine', 0)}: {m['message']}" for m in messages))


def _file(message: dict[str, str]) -> str:
    return unquote(urlsplit(message["url"]).path)


class _Links(HTMLParser):
    """The ids of a page and the addresses it points at."""

    def __init__(self) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.targets: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002 (given by the base)
        for name, value in attrs:
            if name == "id" and value:
                self.ids.add(value)
            elif name in ("href", "src") and value:
                self.targets.append(value)


def check_links(folder: Path) -> Report:
    """Follow every local link of every page: the file must be inside the folder, and the anchor in the file."""
    pages = {path.resolve(): _Links() for path in sorted(folder.rglob("*.html"))}
    for path, links in pages.items():
        links.feed(path.read_text(encoding="utf-8"))
    faults = [
        f"{path.name}: {target} leads nowhere"
        for path, links in pages.items()
        for target in links.targets
        if not _leads_somewhere(path, target, folder.resolve(), pages)
    ]
    return Report(tuple(pages), tuple(faults))


def _leads_somewhere(page: Path, target: str, folder: Path, pages: dict[Path, _Links]) -> bool:
    parts = urlsplit(target)
    if parts.scheme:
        return parts.scheme in ("https", "http", "mailto", "data")  # a link to read on, which nobody has to follow
    path = (page.parent / unquote(parts.path)).resolve() if parts.path else page
    if not path.is_file() or not path.is_relative_to(folder):
        return False
    return not parts.fragment or path not in pages or unquote(parts.fragment) in pages[path].ids


def html_pages(folder: Path) -> Iterator[Path]:
    """Yield the HTML pages of a folder and its subfolders, sorted."""
    yield from sorted(folder.rglob("*.html"))
