"""Workbooks for tests: made by a library as people make them, or part by part as ISO/IEC 29500-1 has them."""

import io
import zipfile
from collections.abc import Iterable, Mapping
from typing import Any, Final

from openpyxl import Workbook

_MAIN: Final = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE: Final = "http://schemas.openxmlformats.org/package/2006"


def saved(book: Workbook) -> bytes:
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def workbook(rows: Iterable[Iterable[Any]], formats: Mapping[str, str] | None = None) -> bytes:
    """Return a workbook of one sheet; ``formats`` are number formats by cell."""
    book = Workbook()
    sheet = book.worksheets[0]
    for row in rows:
        sheet.append(list(row))
    for place, form in (formats or {}).items():
        sheet[place].number_format = form
    return saved(book)


def parts(sheet_rows: str, doctype: str = "", strings: str = "") -> bytes:
    """Return the least workbook that the standard allows (18.2.28 sheets, 18.3.1.99 worksheet), its rows as given."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        archive.writestr("[Content_Types].xml", (
            f'<Types xmlns="{_PACKAGE}/content-types">'
            '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
            '<Override PartName="/xl/workbook.xml" '
            'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
            '<Override PartName="/xl/worksheets/sheet1.xml" '
            'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>'
            '<Override PartName="/xl/sharedStrings.xml" '
            'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>'
        ))  # fmt: skip
        archive.writestr("_rels/.rels", (
            f'<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="a" '
            f'Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>'
        ))  # fmt: skip
        archive.writestr("xl/workbook.xml", (
            f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>'
            '<sheet name="Class" sheetId="1" r:id="b"/></sheets></workbook>'
        ))  # fmt: skip
        archive.writestr("xl/_rels/workbook.xml.rels", (
            f'<Relationships xmlns="{_PACKAGE}/relationships">'
            f'<Relationship Id="b" Type="{_OFFICE}/worksheet" Target="worksheets/sheet1.xml"/>'
            f'<Relationship Id="c" Type="{_OFFICE}/sharedStrings" Target="sharedStrings.xml"/></Relationships>'
        ))  # fmt: skip
        archive.writestr("xl/sharedStrings.xml", f'{doctype}<sst xmlns="{_MAIN}">{strings}</sst>')
        archive.writestr(
            "xl/worksheets/sheet1.xml",
            f'{doctype}<worksheet xmlns="{_MAIN}"><sheetData>{sheet_rows}</sheetData></worksheet>',
        )
    return held.getvalue()


def rezipped(data: bytes, old: bytes, new: bytes) -> bytes:
    """Return a workbook with a text in its parts changed."""
    held = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as target:
        for part in source.infolist():
            target.writestr(part.filename, source.read(part).replace(old, new))
    return held.getvalue()
