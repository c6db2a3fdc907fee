"""A graded form, a certificate and a register, as feedback, certificates and front pages get them. Invented."""

from typing import Final

from courseware.grading.mark import grade
from courseware.publish.certificate import CertificateSheet, PassedForm
from courseware.publish.feedback import FeedbackSheet, LessonPlace
from courseware.publish.index import FormOut, Held, LessonEntry, QuizEntry, Register, SheetEntry
from courseware.quiz.response import make_response
from tests.publish.sample_quiz import FORM, KEY, RIGHT

#: One wrong answer, one left blank, one right, an order that breaks the gate, and a part of what applies.
POOR: Final = {
    "1": (FORM.items[0].options[1].tag,),
    "2": (),
    "3": RIGHT["3"],
    "4": (RIGHT["4"][0], RIGHT["4"][1], RIGHT["4"][3], RIGHT["4"][2]),
    "5": (RIGHT["5"][0], FORM.items[4].options[1].tag, RIGHT["5"][1]),
}
PLACES: Final = {
    "ignition-test#isolate": LessonPlace("The ignition test: Isolate the fault", "ignition-test.html#isolate"),
    "ignition-test#procedure": LessonPlace("The ignition test: Procedure", ""),
}
OBJECTIVES: Final = {"find-the-fault": "Find what is wrong with the ignition from readings"}


def feedback_sheet(answers: dict[str, tuple[str, ...]], supervised_by: str = "Q. Ames") -> FeedbackSheet:
    result = grade(FORM, KEY, make_response(FORM.id, answers))
    return FeedbackSheet(FORM, result, "Dana Whitlock", "2026-11-25", supervised_by, PLACES, OBJECTIVES)


CERTIFICATE: Final = CertificateSheet(
    code="K7QM-2XPA-9D4T",
    holder="Dana Whitlock",
    company="Northfield Heater Service",
    program="Ignition service",
    scope=("Find what is wrong with the ignition from readings", "Put the steps of the ignition test in a safe order"),
    forms=(PassedForm("Ignition: finding what is wrong", FORM.id, 91.7, "2026-11-24", "Q. Ames"),),
    course_version="0.1",
    course_hash="9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
    issued="2026-11-25",
    expires="2028-11-25",
    signer="Q. Ames",
    reviewed=False,
    review="not reviewed by a licensed technician",
)

LESSONS: Final = (
    LessonEntry("The ignition test", "See a spark, and no oil, before anyone looks.", "lessons/ignition-test.html",
                "lessons/ignition-test.pdf", 35, "not reviewed by a licensed technician"),
)  # fmt: skip
QUIZZES: Final = (QuizEntry(FORM.id, FORM.title, "quizzes/k52r.html", "quizzes/k52r.pdf", 4, 12),)
SHEETS: Final = (SheetEntry("Answer sheet", FORM.id, "keys/k52r.html", "keys/k52r.pdf"),)
REGISTER: Final = Register(
    "Northfield Heater Service",
    "2026-11-25",
    (
        Held("Dana Whitlock", "Ignition service", "K7QM-2XPA-9D4T", "2026-11-25", "2028-11-25", "valid",
             "c/1.html", "c/1.pdf"),
        Held("Lee Okafor", "Ignition service", "2M4C-7T9P-QX1A", "2024-01-10", "2026-01-10", "expired", "", ""),
    ),
    (FormOut("7K3Q-9XA2", FORM.title, "Sam Ortiz", "2026-11-24", 1),),
)  # fmt: skip
