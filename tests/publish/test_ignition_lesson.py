"""The lesson that ships: what it teaches is right, it reads easily, and its page and its paper "
"hold to the standards."""

import io
import re
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser

from courseware.content.readability import count
from courseware.publish.blocks.caution import Caution
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.blocks.procedure import JobSheet
from courseware.publish.blocks.self_check import SelfCheck
from courseware.publish.blocks.worked_example import WorkedExample
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from courseware.publish.prose import Prose
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson
from tests.publish.test_pdf import fonts
from tests.web.markup import check_links, check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers


def text_of(shipped: Shipped, name: str) -> str:
    return shipped.lesson.numbers[name].text.replace("\N{NO-BREAK SPACE}", " ")


def blocks(shipped: Shipped, kind: type) -> list[object]:
    return [piece for piece in shipped.lesson.pieces if isinstance(piece, kind)]


def test_it_reads_at_grade_nine_or_below(shipped: Shipped) -> None:
    # The bar is the course's own. The running text is counted alone too, so that short table cells cannot sweeten it.
    prose = "\n".join(piece.plain for piece in shipped.lesson.pieces if isinstance(piece, Prose))
    assert count(prose).words > 1000
    assert count(prose).grade <= 9.0
    assert shipped.lesson.grade <= 9.0


def test_its_numbers_worked_by_hand(shipped: Shipped) -> None:
    # Turns ratio: 10,000 V / 120 V = 83.33 V for each volt (a study card says about 90 to 1; trade magazines 83).
    assert text_of(shipped, "per-volt") == "83.3 V"
    assert text_of(shipped, "night-output") == "8,333 V"  # 10,000 x 100 / 120, the trade magazine's case
    assert text_of(shipped, "least-line") == "108 V"  # 120 V less 10 %: 9,000 / 10,000 x 120
    assert text_of(shipped, "day-output") == "9,333 V"  # 10,000 x 112 / 120
    assert text_of(shipped, "night-tester") == "8.3 kV"
    assert text_of(shipped, "day-tester") == "7.9 kV"  # 9.33 kV x (1 - 0.5 x 0.3): half of a 30 % loss
    assert text_of(shipped, "gap-small") == "1/8 in (3.2 mm)"  # 3.175 mm, NIST SP 811
    assert text_of(shipped, "air-siphon") == "10 psig (69 kPa)"  # 68.95 kPa, NIST SP 811


def test_the_fuel_is_made_safe_as_each_unit_needs_it(shipped: Shipped) -> None:
    # Sparks and no oil: on the siphon unit the air is taken off; on the metered unit the oil is shut, the air stays.
    (sheet,) = blocks(shipped, JobSheet)
    assert isinstance(sheet, JobSheet)
    rows = [row for _, part in sheet.parts for row in part]
    delivery = [unit.features["delivery"] for unit in sheet.units]
    siphon, metered = delivery.index("siphon"), delivery.index("metered")
    number = {row.title: row.numbers for row in rows}
    actions = shipped.teaching.safework.actions
    assert number[actions["take-air-line-off"].title][metered] is None
    assert number[actions["shut-oil-valve"].title][siphon] is None
    # No simulated flame where ignition is interrupted.
    interrupted = [unit.features["ignition"] for unit in sheet.units].index("interrupted")
    assert number[actions["switch-flame-lead-on"].title][interrupted] is None
    # No oil is proved before anyone looks.
    for unit, look in ((siphon, "look-at-held-spark"), (metered, "look-at-spark-in-trial")):
        proved, looked = number[actions["prove-no-oil"].title][unit], number[actions[look].title][unit]
        assert proved is not None
        assert looked is not None
        assert proved < looked


def test_its_figures_show_what_their_words_say(shipped: Shipped) -> None:
    start, air_off, simulated, curve = blocks(shipped, FigureBlock)
    for figure in (start, air_off, simulated, curve):
        assert isinstance(figure, FigureBlock)
    rows = {id(figure): figure.figure.table.rows for figure in (start, air_off, simulated)}  # type: ignore[attr-defined] # asserted above
    healthy, broken = rows[id(start)]
    assert healthy[5] == "never"  # no red light
    assert broken[3:5] == ("never", "never")  # no spark, no flame
    siphon, metered = rows[id(air_off)]
    assert siphon[3] == "never"  # no air, no oil
    assert metered[3] != "never"  # metered oil flows with the air off
    kept, lost = (re.findall(r"[\d.]+", row[3]) for row in rows[id(simulated)])
    assert float(kept[1]) - float(kept[0]) > 60  # intermittent: the spark stays for looking
    assert float(lost[1]) - float(lost[0]) <= 1  # interrupted: gone as soon as flame is "seen"
    assert all(row[2] == "never" for row in rows[id(simulated)])  # and no oil in either


def test_it_warns_explains_shows_and_asks_in_that_order(shipped: Shipped) -> None:
    words = [block.word for block in blocks(shipped, Caution) if isinstance(block, Caution)]
    assert words == ["DANGER", "DANGER", "WARNING"]
    full, faded = blocks(shipped, WorkedExample)
    assert isinstance(full, WorkedExample)
    assert isinstance(faded, WorkedExample)
    assert not full.left
    assert len(faded.left) == 3
    last = shipped.lesson.pieces[-1]
    assert isinstance(last, SelfCheck)  # questions after the text, not before
    assert all(len(question.options) == 4 for question in last.questions)
    places = {[option.right for option in question.options].index(True) for question in last.questions}
    assert len(places) > 1  # the right option does not always stand in the same place


def test_a_step_moved_in_the_lesson_stops_the_build_at_its_line(tmp_path: Path, shipped: Shipped) -> None:
    text = shipped.file.read_text(encoding="utf-8")
    line = next(one for one in text.split("\n") if "{step: dead}" in one)
    before = next(one for one in text.split("\n") if "{step: try," in one)
    broken = text.replace(f"{line}\n", "").replace(before, f"{line}\n{before}")
    _, problems = read_lesson(tmp_path, broken, shipped.teaching)
    place = broken.split("\n").index(line) + 1
    assert problems.startswith(f"modules/spark.md:{place}: lesson 'ignition-test', block 'procedure': the step 'dead'")
    assert problems.count("modules/spark.md") == 2  # one for each unit, and nothing else


@pytest.fixture(scope="module")
def built(shipped: Shipped, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("trainee")
    write_style(folder)
    write_page(folder / "lessons" / "ignition-test.html", shipped.screen)
    (folder / "lessons" / "ignition-test.pdf").write_bytes(html_to_pdf(shipped.paper))
    return folder


def test_its_page_is_valid_html_and_every_link_leads_somewhere(built: Path) -> None:
    check_markup(built).assert_clean(expected=1)
    check_links(built).assert_clean(expected=1)


def test_its_page_is_accessible_on_phone_and_desk_by_day_and_night(built: Path, browser: Browser) -> None:
    check_pages(browser, built.rglob("*.html")).assert_clean(expected=1)


def test_its_page_opens_answers_without_scripts_and_its_data_without_network(shipped: Shipped) -> None:
    assert "<script" not in shipped.screen
    assert not re.search(r'(?:src|href)="(?:https?:)?//', shipped.screen)
    assert shipped.screen.count("<details>") == 4 + 3 + 6  # data of figures, steps left to the reader, questions


def test_its_pdf_is_tagged_and_holds_our_fonts_only(built: Path) -> None:
    papers = list(built.rglob("*.pdf"))
    check_papers(papers).assert_clean(expected=1)
    assert {name for name, embedded in fonts(papers[0].read_bytes()) if embedded} == {
        "Course-Sans", "Course-Sans-Bold", "Course-Sans-Italic",
    }  # fmt: skip
    assert all(embedded for _, embedded in fonts(papers[0].read_bytes()))


def test_its_pdf_holds_every_section_and_the_answers_at_the_end(built: Path, shipped: Shipped) -> None:
    reader = pypdf.PdfReader(io.BytesIO((built / "lessons" / "ignition-test.pdf").read_bytes()))
    text = re.sub(r"\s+", " ", "".join(page.extract_text() for page in reader.pages))
    for section in shipped.lesson.sections:
        assert section.title in text
    assert "not reviewed by a licensed technician" in text
    assert "Local code and the unit's own manual come first." in text
    assert text.index("Replace the transformer. It is weak.") > text.index("Why do you prove the meter again")
    assert "\N{REPLACEMENT CHARACTER}" not in text


def test_the_same_lesson_gives_the_same_bytes_in_another_folder(built: Path, shipped: Shipped, tmp_path: Path) -> None:
    write_style(tmp_path)
    write_page(tmp_path / "lessons" / "ignition-test.html", shipped.screen)
    (tmp_path / "lessons" / "ignition-test.pdf").write_bytes(html_to_pdf(shipped.paper))
    first, second = (
        {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
        for folder in (built, tmp_path)
    )
    assert len(first) == 7
    assert first == second
