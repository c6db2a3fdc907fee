"""The page check sees a good page, and fails on each planted fault."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.web import pages, tools
from tests.web.browser import open_browser, open_page
from tests.web.pages import check_pages

GOOD = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Spark test</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><style>
:root {{ color-scheme: light dark }} {style}</style></head>
<body><main><h1>Spark test</h1><p>The gap is 1/8 inch.</p>{body}</main></body></html>"""

FAINT = "{ color: #888; background: #999 }"


def write(folder: Path, name: str, body: str = "", style: str = "") -> Path:
    path = folder / f"{name}.html"
    path.write_text(GOOD.format(body=body, style=style), encoding="utf-8")
    return path


def test_a_good_page_passes_and_is_counted(browser: Browser, tmp_path: Path) -> None:
    report = check_pages(browser, [write(tmp_path, "one"), write(tmp_path, "two")])
    report.assert_clean(expected=2)
    assert [path.name for path in report.seen] == ["one.html", "two.html"]


@pytest.mark.parametrize(
    ("body", "style", "fault"),
    [
        ('<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">', "", "image-alt"),
        ("<label>Gap</label><input>", "", "label"),
        ("<h4>Order</h4>", "", "heading-order"),
        ('<p style="color:#888;background:#999">faint</p>', "", "color-contrast"),
        ("<p class=night>faint by night</p>", f"@media (prefers-color-scheme: dark) {{ .night {FAINT} }}",
         "phone, dark: color-contrast"),
        ("<p class=desk>faint on a desk</p>", f"@media (min-width: 1000px) {{ .desk {FAINT} }}",
         "desktop, light: color-contrast"),
        ('<div style="width:350px">wide</div>', "", "320 px: the page is 358 px wide in a window of 320 px"),
        ('<img alt="x" src="https://example.com/x.png">', "", "request to https://example.com/x.png"),
        ('<script>fetch("https://example.com/y").catch(() => 0)</script>', "", "request to https://example.com/y"),
        ('<link rel="stylesheet" href="gone.css">', "", "console error"),
        ("<script>spark()</script>", "", "script error: spark is not defined"),
    ],
)  # fmt: skip
def test_a_planted_fault_is_found(browser: Browser, tmp_path: Path, body: str, style: str, fault: str) -> None:
    report = check_pages(browser, [write(tmp_path, "bad", body, style)])
    assert any(fault in line for line in report.faults), report.faults
    with pytest.raises(AssertionError, match="faults:"):
        report.assert_clean(expected=1)


def test_seeing_fewer_pages_than_expected_fails(browser: Browser, tmp_path: Path) -> None:
    report = check_pages(browser, [write(tmp_path, "one")])
    with pytest.raises(AssertionError, match=r"expected 2 files, saw 1: one\.html"):
        report.assert_clean(expected=2)


def test_seeing_nothing_fails(browser: Browser) -> None:
    with pytest.raises(AssertionError, match="a check of no file proves nothing"):
        check_pages(browser, []).assert_clean(expected=0)


def test_a_page_of_a_test_that_asks_the_network_fails_it(browser: Browser, tmp_path: Path) -> None:
    address = write(tmp_path, "asks", '<img alt="x" src="http://127.0.0.1:9/x.png">').as_uri()
    with pytest.raises(AssertionError, match=r"request to http://127\.0\.0\.1:9/x\.png"):  # noqa: SIM117
        with open_page(browser) as page:
            page.goto(address)


def test_a_missing_browser_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.web.browser.CHROMIUM", tmp_path / "chromium")
    with pytest.raises(AssertionError) as caught, open_browser():
        pass
    assert str(caught.value) == (
        f"chromium was not found ({tmp_path / 'chromium'}); install what the tests need: bash tests/web/install.sh"
    )


def test_a_missing_rule_engine_fails(browser: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pages, "AXE", tmp_path / "axe.min.js")
    with pytest.raises(tools.ToolMissingError, match="axe-core was not found"):
        check_pages(browser, [write(tmp_path, "one")])


def test_another_version_of_a_package_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "package.json").write_text('{"dependencies": {"axe-core": "4.14.1"}}', encoding="utf-8")
    package = tmp_path / "node_modules/axe-core/package.json"
    package.parent.mkdir(parents=True)
    package.write_text('{"version": "3.0.0"}', encoding="utf-8")
    monkeypatch.setattr(tools, "HERE", tmp_path)
    with pytest.raises(tools.ToolMissingError, match=r"axe-core 4\.14\.1 was not found \(3\.0\.0 is installed\)"):
        tools.npm_package("axe-core")
