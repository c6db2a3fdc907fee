"""How a form stands is told by what became of it."""

from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.company import archived_form
from courseware.jobs.standing import form_out, holder_of, issued_form, shown_on
from courseware.records.people import erase
from courseware.records.registers import forms_out
from tests.jobs.office import NOW, at_desk


def test_a_form_that_is_out_has_a_holder_and_shows_its_questions(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        assert holder_of(form_out(desk.company, first)) == "T-0002"
        items = [item for one in (first, second) for item in archived_form(desk.company, one).items]
        asked = {(item.stem, item.exhibit) for item in items}
        assert {(stem, exhibit) for stem, exhibit, _ in shown_on(desk.company, [first, second]).questions} == asked
        erase(desk.company.store, "T-0002", desk.company.key, NOW)
        with pytest.raises(Refusal, match=f"the holder of form '{first}' was erased"):
            holder_of(form_out(desk.company, first))


def test_a_form_that_was_never_issued_is_told(company: Path) -> None:
    with at_desk(company) as desk, pytest.raises(Refusal) as refused:
        issued_form(desk.company, "0000-0000")
    assert str(refused.value) == "no form '0000-0000' was ever issued; try: look at the number at the top of the quiz"
