"""Reading level by the Flesch-Kincaid grade, counted by our own few rules.

Grade = 0.39 words/sentences + 11.8 syllables/words - 15.59 (Kincaid, Fishburne, Rogers and Chissom,
1975). Syllables are judged by the letters: groups of vowels, one less for a silent e, one more
where two vowels are two sounds. A word now and then is wrong; over a lesson the errors cancel.
"""

import re
from dataclasses import dataclass
from typing import Final

#: A sentence ends at a stop, a question mark or an exclamation mark, or with its line.
_SENTENCE_END: Final = re.compile(r"(?<=[.?!])[\"')\]]*\s+|[:;]?\n+")
_WORD: Final = re.compile("[A-Za-z]+(?:['\N{RIGHT SINGLE QUOTATION MARK}][A-Za-z]+)*")
_VOWELS: Final = re.compile(r"[aeiouy]+")
#: Two vowel letters that are two sounds (ra-di-o, du-al, fu-el), unless what is before makes them one (igni-tion).
_TWO_SOUNDS: Final = re.compile(
    r"(?<![cgst])i[aou](?<!lia)|lia(?!n|r)|(?<!g)eo(?!u)|[aeiou]ing$|(?<!q)u(?:a[lt]|o)|(?<!q)ue[lt]$"
)
_SILENT: Final = re.compile(r"(?<=[^aeiouy])(?:e|es|ed)$")
#: Common words that the rules get wrong.
_KNOWN: Final = {
    "area": 3, "areas": 3, "create": 2, "creates": 2, "giant": 2, "idea": 3, "ideas": 3, "people": 2, "poet": 2,
    "quiet": 2, "science": 2, "someone": 2, "something": 2, "sometimes": 2,
}  # fmt: skip
_SOUNDED: Final = re.compile(r"(?:[^aeiouyl]le|[^aeiouyl]les|[td]ed|[csxz]es|[cs]hes|ges)$")


@dataclass(frozen=True, slots=True)
class Reading:
    """How a text counts.

    Attributes
    ----------
    sentences, words, syllables : int
        Counts [-].
    """

    sentences: int
    words: int
    syllables: int

    @property
    def grade(self) -> float:
        """Return the Flesch-Kincaid grade [-]: the US school year that reads the text with ease.

        Examples
        --------
        The published example "The cat sat on the mat.":

        >>> round(Reading(1, 6, 6).grade, 2)
        -1.45
        """
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59


def count(text: str) -> Reading:
    """Count sentences, words and syllables.

    Parameters
    ----------
    text : str
        Plain text; a line break ends a sentence, so that headings and list items count as one each.

    Returns
    -------
    Reading
        The counts; numbers and signs are no words, and a piece without words is no sentence.

    Raises
    ------
    ValueError
        If there is no word in the text.

    Examples
    --------
    >>> count("Shut off the fuel valve. Lock it out. Tag it.")
    Reading(sentences=3, words=10, syllables=11)
    """
    pieces = [words for piece in _SENTENCE_END.split(text) if (words := _WORD.findall(piece))]
    if not pieces:
        raise ValueError("there is no word to count")
    words = [word for piece in pieces for word in piece]
    return Reading(len(pieces), len(words), sum(syllables(word) for word in words))


def syllables(word: str) -> int:
    """Return the number of syllables [-] of an English word, judged by its letters.

    Examples
    --------
    >>> [syllables(word) for word in ("spark", "valve", "nozzle", "electrode", "ignition", "oil", "wired")]
    [1, 1, 2, 3, 3, 1, 1]
    """
    letters = re.sub("['\N{RIGHT SINGLE QUOTATION MARK}].*", "", word.lower())
    if letters in _KNOWN:
        return _KNOWN[letters]
    found = len(_VOWELS.findall(letters)) + len(_TWO_SOUNDS.findall(letters))
    if _SILENT.search(letters) and not _SOUNDED.search(letters):
        found -= 1
    return max(found, 1)
