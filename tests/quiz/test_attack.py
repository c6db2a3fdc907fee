"""An attacker with the program, the public bank and every form, but not the company's secret, learns no key.

What a person who knows the trade can answer stays answerable: that is what a quiz is for. Held here is that the files
themselves give nothing away.
"""

import dataclasses
import hashlib
import json
import math
from collections import Counter
from collections.abc import Iterator

import pytest

from courseware.content.refusal import Refusal
from courseware.quiz.base32 import ALPHABET, draw_words
from courseware.quiz.chance import chance, open_chance
from courseware.quiz.draw import Stock, draw_form, draw_question
from courseware.quiz.form import Form, Key, form_bytes, key_bytes
from courseware.quiz.kinds.base import DrawnOption
from courseware.quiz.layout import lay_out
from courseware.quiz.seal import open_sealed, seal
from tests.quiz.making import SECRET

FORMS = 30
Forms = list[tuple[Form, Key]]


@pytest.fixture(scope="module")
def forms(stock: Stock) -> Forms:
    return [draw_form(stock, "ignition", f"A-{number}", SECRET) for number in range(FORMS)]


def guessed_secrets(form_id: str) -> Iterator[bytes]:
    """Yield what a lazy or broken program might use for a secret."""
    words = ["", form_id, "ignition", "courseware", "courseware/form/1", "Demo Company", "secret", "password"]
    for word in words:
        data = word.encode()
        yield data
        yield data.ljust(32, b"\0")
        yield (data * 32)[:32]
        yield from (hashlib.new(name, data).digest() for name in ("md5", "sha1", "sha256", "sha512"))
        yield hashlib.sha256(data).hexdigest().encode()
    for number in range(256):
        yield number.to_bytes(32, "big")
        yield number.to_bytes(32, "little")
        yield bytes([number]) * 32
        yield str(number).encode()
    yield bytes(range(1, 33))


def test_no_guessed_secret_draws_the_form_again(forms: Forms) -> None:
    """The tags of a form are its first use of chance; a secret that is right gives them, and no guess does."""
    form, _ = forms[0]
    tags = [option.tag for item in form.items for option in item.options]

    def tags_under(secret: bytes) -> list[str]:
        rng = chance(secret, "courseware/form/1", form.blueprint, form.id, "places and tags")
        return list(draw_words(len(tags), rng))

    assert tags_under(SECRET) == tags
    refused = 0
    for secret in guessed_secrets(form.id):
        try:
            assert tags_under(secret) != tags
        except Refusal:
            refused += 1
    assert refused > 256  # too short to be a secret at all
    public = open_chance("courseware/form/1", form.blueprint, form.id, "places and tags")
    assert list(draw_words(len(tags), public)) != tags


def test_no_guessed_secret_gives_the_form_or_opens_the_key(stock: Stock, forms: Forms) -> None:
    form, key = forms[0]
    sealed = seal(key_bytes(key), SECRET, form.id)
    for secret in guessed_secrets(form.id):
        with pytest.raises(Refusal):
            open_sealed(sealed, secret, form.id)
    for secret in (hashlib.sha256(form.id.encode()).digest(), bytes(32), hashlib.sha256(b"").digest()):
        assert form_bytes(draw_form(stock, "ignition", form.id, secret)[0]) != form_bytes(form)


def test_the_forms_bytes_follow_from_its_public_part_alone(stock: Stock) -> None:
    """The same questions, with another option right and other explanations: another key, and the same form."""
    blueprint = stock.bank.blueprints["ignition"]
    questions = [
        (template, draw_question(template, stock.materials, open_chance(template.id), set()))
        for draw in blueprint.draws
        for template in (stock.bank.templates[name] for name in draw.templates)
    ]
    permuted = [
        (
            template,
            dataclasses.replace(
                drawn,
                right=max(len(drawn.options) - 1 - drawn.right, 0),
                several=tuple(len(drawn.options) - 1 - place for place in drawn.several),
                because="Otherwise.",
                options=tuple(DrawnOption(option.text, option.feedback[::-1]) for option in drawn.options),
                number=drawn.number and dataclasses.replace(drawn.number, value="1"),
                pairs=tuple((later, first) for first, later in drawn.pairs),
                order_gates=(),
            ),
        )
        for template, drawn in questions
    ]
    for seed in "abc":
        form, key = lay_out(blueprint, "A-1", "0.1", questions, open_chance(seed))
        other_form, other_key = lay_out(blueprint, "A-1", "0.1", permuted, open_chance(seed))
        assert form_bytes(other_form) == form_bytes(form)
        assert all(a != b for a, b in zip(key.entries, other_key.entries, strict=True))


def test_no_key_material_is_in_the_form(forms: Forms) -> None:
    for form, key in forms:
        data = form_bytes(form).decode("utf-8")
        for entry in key.entries:
            assert entry.template not in data
            assert entry.because not in data
            assert not any(text in data for text in entry.feedback.values())
            assert not any(gate.reason in data for gate in entry.gates)
            if entry.kind == "numeric":
                item = form.items[entry.number - 1]
                shown = json.dumps(dataclasses.asdict(item), ensure_ascii=False)
                assert f'"{entry.right[0]}"' not in shown


def chi_square(counts: Counter[int], expected: dict[int, float]) -> float:
    return sum((counts[cell] - share) ** 2 / share for cell, share in expected.items())


def test_the_place_of_the_right_option_is_even(forms: Forms) -> None:
    """Over all items with four options: chi-square with 3 degrees of freedom; 16.3 is the 0.1 % point (from memory)."""
    places: Counter[int] = Counter()
    for form, key in forms:
        for item, entry in zip(form.items, key.entries, strict=True):
            if item.kind in ("scenario", "choice") and len(item.options) == 4:
                places[[option.tag for option in item.options].index(entry.right[0])] += 1
    total = places.total()
    assert total > 100
    assert chi_square(places, dict.fromkeys(range(4), total / 4)) < 16.3


def test_an_order_is_not_shown_in_its_right_order(forms: Forms) -> None:
    """The steps stand in an even order: Kendall's distance to the key is about half of all pairs on the average."""
    shares = []
    for form, key in forms:
        item, entry = form.items[-1], key.entries[-1]
        place = {option.tag: number for number, option in enumerate(item.options)}
        turned = sum(place[first] > place[later] for first, later in entry.pairs)
        shares.append(turned / len(entry.pairs))
    mean = math.fsum(shares) / len(shares)
    # If chance alone orders n steps, tau has the variance 2 (2n + 5) / (9 n (n - 1)) (Kendall 1938), and the share is
    # (1 - tau) / 2: a standard deviation of 0.204 for n = 5. Fewer fixed pairs vary more; 0.35 is on the safe side.
    assert abs(mean - 0.5) < 3.3 * 0.35 / math.sqrt(len(shares))


def test_a_tag_says_nothing_about_being_right(forms: Forms) -> None:
    """Its rank among its item's tags, and its second character, are even; 16.3 as above."""
    ranks: Counter[int] = Counter()
    quarters: Counter[int] = Counter()
    for form, key in forms:
        for item, entry in zip(form.items, key.entries, strict=True):
            if item.kind in ("scenario", "choice"):
                quarters[ALPHABET.index(entry.right[0][1]) // 8] += 1
                if len(item.options) == 4:
                    ranks[sorted(option.tag for option in item.options).index(entry.right[0])] += 1
    for counts in (ranks, quarters):
        assert chi_square(counts, dict.fromkeys(range(4), counts.total() / 4)) < 16.3


def test_the_right_option_is_not_the_longest_one_too_often(forms: Forms) -> None:
    """No more often than chance would, within three standard deviations of a binomial count."""
    longest, expected, variance = 0, 0.0, 0.0
    for form, key in forms:
        for item, entry in zip(form.items, key.entries, strict=True):
            if item.kind in ("scenario", "choice"):
                lengths = {option.tag: len(option.text) for option in item.options}
                longest += lengths[entry.right[0]] == max(lengths.values())
                share = 1 / len(lengths)
                expected += share
                variance += share * (1 - share)
    assert longest < expected + 3 * math.sqrt(variance)
