"""The person's fault at the door: something asked for that cannot be done, told in one line that says what to try.

Any room may raise a :class:`Refusal` (or a class of its own made from it); the command line shows its
text and ends with exit code 1. What is wrong inside content files is not told this way: that is a
list of :class:`~courseware.content.problems.Problem`.
"""

from courseware.content.words import say


class Refusal(Exception):  # noqa: N818  # it is an answer to a person, not an error of the program
    """What was asked cannot be done.

    Parameters
    ----------
    found : str
        What is wrong, as a sentence fragment from the catalogue.
    advice : str
        What to try, as a sentence fragment from the catalogue.

    Examples
    --------
    >>> str(Refusal("the folder 'x' is not empty", "name another folder"))
    "the folder 'x' is not empty; try: name another folder"
    """

    def __init__(self, found: str, advice: str) -> None:
        super().__init__(f"{found}; {say('content.try', advice=advice)}")
        self.found = found
        self.advice = advice
