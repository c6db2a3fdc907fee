"""The desk at which a trainer or the office works: course, company, the time, and who waits for an answer."""

from dataclasses import dataclass
from datetime import datetime

from courseware.jobs.company import Company
from courseware.jobs.course import Course, stock_of
from courseware.jobs.office import write_office, write_office_papers
from courseware.jobs.press import Press, Told
from courseware.jobs.shelf import imprint_of, write_front_pages
from courseware.publish.output import OutputFolders
from courseware.publish.pages import Imprint
from courseware.quiz.draw import Stock


@dataclass(frozen=True, slots=True)
class Desk:
    """Everything that one job works with.

    Attributes
    ----------
    course : Course
        A sound course.
    company : Company
        Whose records are written.
    now : datetime
        The one time of the job, with a time zone.
    tell : callable
        Receives the name of each file before it is made.
    stock : Stock
        What quizzes are drawn from; kept for the whole job, since what it computes is slow.
    shared : Press or None
        The press of several jobs in a row: their papers are made while the next job goes on, and the lists are written
        by whoever does them all, at the end.
    """

    course: Course
    company: Company
    now: datetime
    tell: Told
    stock: Stock
    shared: Press | None = None

    @classmethod
    def at(cls, course: Course, company: Company, now: datetime, tell: Told) -> "Desk":
        """Return the desk of a company, with its course at hand."""
        return cls(course, company, now, tell, stock_of(course))

    @property
    def imprint(self) -> Imprint:
        """Return what every page says of the course."""
        return imprint_of(self.course)

    @property
    def folders(self) -> OutputFolders:
        """Return where pages and papers go."""
        return self.company.places.build

    def press(self) -> Press:
        """Return a press for one run of writing."""
        return self.shared or Press(self.tell)

    def renew_front_pages(self, press: Press) -> None:
        """Write the front pages anew, after the records have changed."""
        if self.shared:
            return
        write_front_pages(self.course, self.company, self.folders, press, self.now.date())
        write_office(self.course, self.company, self.folders, press, self.now.date())

    def write_office_papers(self) -> None:
        """Make the office's papers anew: once, when the work is done, since every entry changes some of them."""
        if self.shared:
            return
        press = Press(lambda _line: None)
        write_office_papers(self.course, self.company, self.folders, press, self.now.date())
